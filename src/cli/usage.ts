import { FILM_FIELD, POSE_FIELDS, REFERENCE_FILM_MM } from '../../models/axleFields.ts';
import { AXLE_IDS } from '../../models/index.ts';

const { pinionIn, shaftAngleError } = POSE_FIELDS;

export const USAGE = `mesh: what shims do to the contact pattern of a hypoid gear set

  mesh solve --gearset=FILE | --axle=NAME [options]   prints geometry, both flanks and backlash as one JSON object
  mesh plate --gearset=FILE | --axle=NAME [options]   prints both flank maps as SVG, or writes them with --out=FILE
  mesh match --gearset=FILE | --axle=NAME --observed=FILE [--set=known|unknown]
                                                      prints which assembly errors explain a painted pattern, one JSON
                                                      object a line; with --axle also which shims to fit next
  mesh axles                                          lists the practice axles

  --gearset=FILE            JSON of a gear set, or of an axle that holds one as "gearset"
  --axle=NAME               one of ${AXLE_IDS.join(', ')}
  --pinion-in=MM            pinion toward the ring's axis; minus for out (${pinionIn.min} to ${pinionIn.max})
  --ring-away=MM            ring away from the pinion; minus for toward (${pinionIn.min} to ${pinionIn.max})
  --offset-error=MM         housing offset larger; minus for smaller (${pinionIn.min} to ${pinionIn.max})
  --shaft-angle-error=DEG   pinion axis tipped (${shaftAngleError.min} to ${shaftAngleError.max})
  --film=MM                 thickness of marking compound (${FILM_FIELD.min} to ${FILM_FIELD.max}); the axle's own, else ${REFERENCE_FILM_MM}
  --out=FILE                for plate: where to write
  --observed=FILE           for match: what is seen, one JSON object or one a line
  --set=known|unknown       for match: take the set's own pattern as true (known), or as cut a little differently
  --help                    this text

Minus values need the equals sign: --ring-away=-0.05.
Answers: mm, degrees, µrad of ring angle. Exit 0: done; 2: input that cannot be used, told in one line; 1: a fault of the program.
`;
