import type { PlainTextKey } from '../../../text/catalogue.ts';

/** A field in its place on the form. */
export interface FormField {
  /** of the draft, see state/axleDraft.ts */
  readonly name: string;
  readonly label: PlainTextKey;
  readonly help: PlainTextKey | null;
}

export interface FormSection {
  readonly id: string;
  readonly title: PlainTextKey;
  readonly why: PlainTextKey | null;
  readonly fields: readonly FormField[];
}

const field = (name: string, label: PlainTextKey, help: PlainTextKey | null = null): FormField => ({
  name,
  label,
  help,
});

const stock = (path: string, of = ''): readonly FormField[] => [
  field(`${path}.stock.thinnest${of}`, 'ownAxle.f.thinnest'),
  field(`${path}.stock.thickest${of}`, 'ownAxle.f.thickest'),
  field(`${path}.stock.step${of}`, 'ownAxle.f.step'),
  field(`${path}.stock.mostStacked${of}`, 'ownAxle.f.mostStacked'),
];

const side = (path: string): readonly FormField[] => [
  field(`${path}.kind`, 'ownAxle.f.sideKind', 'ownAxle.h.sideKind'),
  ...['@outboard-shims', '@inboard-shims'].flatMap((of) => [
    field(`${path}.fitted${of}`, 'ownAxle.f.fitted', 'ownAxle.h.fitted'),
    field(`${path}.design${of}`, 'ownAxle.f.design', 'ownAxle.h.design'),
    ...stock(path, of),
  ]),
  field(`${path}.pitch@adjuster`, 'ownAxle.f.pitch', 'ownAxle.h.pitch'),
  field(`${path}.notchesPerTurn@adjuster`, 'ownAxle.f.notchesPerTurn'),
  field(`${path}.fitted@adjuster`, 'ownAxle.f.notchesFitted', 'ownAxle.h.notchesFitted'),
  field(`${path}.design@adjuster`, 'ownAxle.f.notchesDesign', 'ownAxle.h.notchesDesign'),
  field(`${path}.mostNotches@adjuster`, 'ownAxle.f.mostNotches'),
];

const easeOff = (flank: 'drive' | 'coast'): FormSection => ({
  id: `easeOff-${flank}`,
  title: `ownAxle.s.easeOff.${flank}`,
  why: null,
  fields: [
    field(`gearset.easeOff.${flank}.lengthwise`, 'ownAxle.f.lengthwise', 'ownAxle.h.lengthwise'),
    field(`gearset.easeOff.${flank}.profile`, 'ownAxle.f.profile', 'ownAxle.h.profile'),
    field(`gearset.easeOff.${flank}.bias`, 'ownAxle.f.bias', 'ownAxle.h.bias'),
    field(`gearset.easeOff.${flank}.centerToeHeel`, 'ownAxle.f.centerToeHeel', 'ownAxle.h.centerToeHeel'),
    field(`gearset.easeOff.${flank}.centerRootFace`, 'ownAxle.f.centerRootFace', 'ownAxle.h.centerRootFace'),
  ],
});

/** What a caliper or the eye tells of the gears. Until they are given they are an example's. */
export const CALIPER_FIELDS = [
  field('gearset.pinionTeeth', 'ownAxle.f.pinionTeeth', 'ownAxle.h.pinionTeeth'),
  field('gearset.ringTeeth', 'ownAxle.f.ringTeeth', 'ownAxle.h.ringTeeth'),
  field('gearset.ringOuterDiameter', 'ownAxle.f.ringOuterDiameter', 'ownAxle.h.ringOuterDiameter'),
  field('gearset.faceWidth', 'ownAxle.f.faceWidth', 'ownAxle.h.faceWidth'),
  field('gearset.offset', 'ownAxle.f.offset', 'ownAxle.h.offset'),
] as const;

export const NAME_SECTION: FormSection = {
  id: 'name',
  title: 'ownAxle.s.name',
  why: null,
  fields: [field('name', 'ownAxle.f.name', 'ownAxle.h.name')],
};

/** Tapered or uniform depth stands between the two halves: it is no field of the file. */
export const CALIPER_SECTION: FormSection = {
  id: 'caliper',
  title: 'ownAxle.s.caliper',
  why: 'ownAxle.s.caliper.why',
  fields: CALIPER_FIELDS,
};
export const HAND_FIELD = field('hand', 'ownAxle.f.hand', 'ownAxle.h.hand');

/** Shims and limits: each can be opened and closed. */
export const AXLE_SECTIONS: readonly FormSection[] = [
  {
    id: 'pinionShim',
    title: 'ownAxle.s.pinionShim',
    why: null,
    fields: [
      field('pinionShim.place', 'ownAxle.f.place', 'ownAxle.h.place'),
      field('pinionShim.fitted', 'ownAxle.f.fitted', 'ownAxle.h.fitted'),
      field('pinionShim.design', 'ownAxle.f.design', 'ownAxle.h.design'),
      ...stock('pinionShim'),
    ],
  },
  {
    id: 'ringSide',
    title: 'ownAxle.s.ringSide',
    why: 'ownAxle.s.ringSide.why',
    fields: side('sides.ringSide'),
  },
  {
    id: 'oppositeSide',
    title: 'ownAxle.s.oppositeSide',
    why: 'ownAxle.s.oppositeSide.why',
    fields: side('sides.oppositeSide'),
  },
  {
    id: 'spacer',
    title: 'ownAxle.s.spacer',
    why: null,
    fields: [
      field('spacer.kind', 'ownAxle.f.spacerKind', 'ownAxle.h.spacerKind'),
      field('spacer.fitted@solid-spacer', 'ownAxle.f.fitted', 'ownAxle.h.fitted'),
      ...stock('spacer', '@solid-spacer'),
    ],
  },
  {
    id: 'limits',
    title: 'ownAxle.s.limits',
    why: 'ownAxle.s.limits.why',
    fields: [
      field('limits.backlash.min', 'ownAxle.f.backlashMin'),
      field('limits.backlash.max', 'ownAxle.f.backlashMax'),
      field('limits.backlash.reads', 'ownAxle.f.reads', 'ownAxle.h.reads'),
      field('limits.backlash.variation', 'ownAxle.f.variation'),
      field('limits.ringRunout.max', 'ownAxle.f.runout', 'ownAxle.h.runout'),
      field('limits.pinionTorque.min_Nm', 'ownAxle.f.torqueMin', 'ownAxle.h.torque'),
      field('limits.pinionTorque.max_Nm', 'ownAxle.f.torqueMax', 'ownAxle.h.torque'),
      field('limits.pinionTorque.seal', 'ownAxle.f.seal'),
      field('limits.carrierPreload.min_Nm', 'ownAxle.f.preloadMin', 'ownAxle.h.preload'),
      field('limits.carrierPreload.max_Nm', 'ownAxle.f.preloadMax', 'ownAxle.h.preload'),
    ],
  },
];

export const NOTES_SECTION: FormSection = {
  id: 'notes',
  title: 'ownAxle.s.notes',
  why: null,
  fields: [
    field('description', 'ownAxle.f.description', 'ownAxle.h.description'),
    field('fictional', 'ownAxle.f.fictional', 'ownAxle.h.fictional'),
  ],
};

/** What nobody measures with a caliper. */
export const UNMEASURED_SECTIONS: readonly FormSection[] = [
  {
    id: 'cut',
    title: 'ownAxle.s.cut',
    why: null,
    fields: [
      field('gearset.cut.method', 'ownAxle.f.method', 'ownAxle.h.method'),
      field('gearset.cut.cutterRadius@face-milled', 'ownAxle.f.cutterRadius', 'ownAxle.h.cutterRadius'),
      field('gearset.cut.cutterRadius@face-hobbed', 'ownAxle.f.cutterRadius', 'ownAxle.h.cutterRadius'),
      field('gearset.cut.bladeGroups@face-hobbed', 'ownAxle.f.bladeGroups', 'ownAxle.h.bladeGroups'),
      field(
        'gearset.cut.ringPitchAngle@face-milled',
        'ownAxle.f.ringPitchAngle',
        'ownAxle.h.ringPitchAngle.optional',
      ),
      field('gearset.cut.ringPitchAngle@face-hobbed', 'ownAxle.f.ringPitchAngle', 'ownAxle.h.ringPitchAngle'),
      field('gearset.pinionSpiralAngle', 'ownAxle.f.spiral', 'ownAxle.h.spiral'),
    ],
  },
  {
    id: 'tooth',
    title: 'ownAxle.s.tooth',
    why: null,
    fields: [
      field('gearset.tooth.pressureAngle', 'ownAxle.f.pressureAngle', 'ownAxle.h.pressureAngle'),
      field('gearset.tooth.depthFactor', 'ownAxle.f.depthFactor', 'ownAxle.h.depthFactor'),
      field(
        'gearset.tooth.ringAddendumFactor',
        'ownAxle.f.ringAddendumFactor',
        'ownAxle.h.ringAddendumFactor',
      ),
      field('gearset.tooth.clearanceFactor', 'ownAxle.f.clearanceFactor', 'ownAxle.h.clearanceFactor'),
      field('gearset.tooth.depthTaper', 'ownAxle.f.depthTaper', 'ownAxle.h.depthTaper'),
      field('gearset.tooth.slotFactor', 'ownAxle.f.slotFactor', 'ownAxle.h.slotFactor'),
      field('gearset.backlash', 'ownAxle.f.backlashDesign', 'ownAxle.h.backlashDesign'),
      field('film_mm', 'ownAxle.f.film', 'ownAxle.h.film'),
    ],
  },
  easeOff('drive'),
  easeOff('coast'),
];

const ALL_FIELDS: readonly FormField[] = [
  ...NAME_SECTION.fields,
  ...CALIPER_FIELDS,
  HAND_FIELD,
  ...[...AXLE_SECTIONS, ...UNMEASURED_SECTIONS, NOTES_SECTION].flatMap(({ fields }) => fields),
];

const BY_NAME = new Map(ALL_FIELDS.map((one) => [one.name, one]));

/** Names in the order of the form. */
export const FORM_NAMES: readonly string[] = ALL_FIELDS.map(({ name }) => name);

/** @throws RangeError for a name that has no place on the form */
export function formField(name: string): FormField {
  const found = BY_NAME.get(name);
  if (found === undefined) throw new RangeError(`form field: ${name} has no place on the form`);
  return found;
}
