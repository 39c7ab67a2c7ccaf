/**
 * Which way imports run (DEVELOPERS.md, "Import rules"): the one table behind the lint rule `house/import-direction`.
 *
 * `from`      folders whose files the line is about (`exceptFrom`: those left out)
 * `never`     what they must not import: folders, `npm:` packages, `node:` modules; EVERYTHING for all of them
 * `except`    what they may import all the same
 * `exceptTypes`  what they may take types from (`import type` only: nothing of it is left at run time)
 */
const EVERYTHING = ['sim', 'models', 'src', 'tests', 'scripts', 'docs', 'npm:', 'node:'];

/** Each folder of the core sees itself and those before it. */
const CORE = ['sim/math', 'sim/gearset', 'sim/contact', 'sim/assembly', 'sim/diagnose', 'sim/worker'];

/** Drawings that several work areas show. */
const DRAWINGS = ['src/flank', 'src/shimMap'];

const AREAS = ['src/areas/explore', 'src/areas/match', 'src/areas/job', 'src/areas/class'];

/** What every screen builds on; it knows nothing of the screens. */
const FOUNDATIONS = ['src/state', 'src/storage', 'src/units', 'src/text', 'src/theme'];

/** What runs inside the workers: each worker's core and its entry. The page speaks with them through the clients. */
const INSIDE_WORKERS = ['core', 'entry', 'longCore', 'longEntry', 'diagnoseCore', 'diagnoseEntry'].map(
  (name) => `sim/worker/${name}.ts`,
);

const coreSteps = CORE.map((folder, step) => ({
  because: `${folder} may import only ${[...CORE.slice(0, step), folder].join(', ')}`,
  from: [folder],
  never: ['sim'],
  except: CORE.slice(0, step + 1),
}));

const areasApart = AREAS.map((area) => ({
  because: `${area} must not import another work area: share through src/state, src/flank or src/shimMap`,
  from: [area],
  never: ['src/areas'],
  except: [area],
}));

export const DIRECTIONS = [
  {
    because: 'sim is pure: it imports only sim',
    from: ['sim'],
    never: EVERYTHING,
    // how sim/worker speaks with the page
    except: ['sim', 'npm:comlink'],
  },
  {
    because: 'only sim/worker speaks with the page',
    from: ['sim'],
    exceptFrom: ['sim/worker'],
    never: ['npm:comlink'],
  },
  ...coreSteps,
  {
    because: 'models is plain data: it imports only models, its schema library and types from sim',
    from: ['models'],
    never: EVERYTHING,
    except: ['models', 'npm:zod'],
    exceptTypes: ['sim'],
  },
  {
    because: 'src reaches the core through sim/worker: only types may come from elsewhere in sim',
    from: ['src'],
    // the command line runs in Node and calls the core directly
    exceptFrom: ['src/cli'],
    never: ['sim'],
    except: ['sim/worker'],
    exceptTypes: ['sim'],
  },
  {
    because: 'cores and entries run inside the workers: the page speaks with them through the clients',
    from: ['src'],
    // the command line has no page to keep free
    exceptFrom: ['src/cli'],
    never: INSIDE_WORKERS,
    exceptTypes: INSIDE_WORKERS,
  },
  {
    because: 'only src/stage imports three and @react-three',
    from: ['src', 'sim', 'models'],
    exceptFrom: ['src/stage'],
    never: ['npm:three', 'npm:@react-three', 'npm:@types/three', 'npm:three-stdlib'],
  },
  {
    because: 'src/stage must not import a work area: the shell puts them together',
    from: ['src/stage'],
    never: ['src/areas', 'src/app'],
    except: ['src/app/ui'],
  },
  {
    because: 'a work area must not import src/stage: the shell puts them together',
    from: ['src/areas'],
    never: ['src/stage'],
  },
  {
    because: 'a work area must not import the shell, only the controls in src/app/ui',
    from: ['src/areas'],
    never: ['src/app'],
    except: ['src/app/ui'],
  },
  ...areasApart,
  ...DRAWINGS.map((drawing) => ({
    because: `${drawing} must not import the stage, a work area or the shell`,
    from: [drawing],
    never: ['src/stage', 'src/areas', 'src/app'],
    except: ['src/app/ui'],
  })),
  {
    because: 'src/app/ui holds controls for every screen and knows none of them',
    from: ['src/app/ui'],
    never: ['src/stage', ...DRAWINGS, 'src/areas', 'src/app'],
    except: ['src/app/ui'],
  },
  {
    because: 'the foundations of the app know nothing of its screens',
    from: FOUNDATIONS,
    never: ['src/stage', ...DRAWINGS, 'src/areas', 'src/app', 'src/cli'],
  },
  {
    because: 'Node modules belong to src/cli: the rest of src runs in a browser',
    from: ['src'],
    exceptFrom: ['src/cli'],
    never: ['node:', 'src/cli'],
  },
  {
    because: 'nothing that ships imports tests or scripts',
    from: ['src', 'sim', 'models'],
    never: ['tests', 'scripts'],
  },
];
