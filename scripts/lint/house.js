import { builtinModules } from 'node:module';
import { dirname, relative, resolve, sep } from 'node:path';
import { fileURLToPath } from 'node:url';
import { DIRECTIONS } from './directions.js';

const ROOT = resolve(dirname(fileURLToPath(import.meta.url)), '../..');
const BUILTINS = new Set(builtinModules);

const inside = (target, zone) => target === zone || target.startsWith(zone.endsWith(':') ? zone : `${zone}/`);
const insideAny = (target, zones = []) => zones.some((zone) => inside(target, zone));

/** The path from the root with forward slashes, whatever the system. */
const fromRoot = (path) => relative(ROOT, path).split(sep).join('/');

/** What a specifier written in `file` points at: a path from the root, `npm:…` or `node:…`. */
export function targetOf(specifier, file) {
  const bare = specifier.replace(/[?#].*$/, '');
  if (bare.startsWith('.')) return fromRoot(resolve(dirname(file), bare));
  if (bare.startsWith('/')) return bare.slice(1);
  if (bare.startsWith('node:')) return bare;
  return BUILTINS.has(bare.split('/')[0]) ? `node:${bare}` : `npm:${bare}`;
}

/** The reasons why `file` must not import `target`; empty when it may. */
export function brokenDirections(file, target, typeOnly) {
  return DIRECTIONS.filter(
    (line) =>
      insideAny(file, line.from) &&
      !insideAny(file, line.exceptFrom) &&
      insideAny(target, line.never) &&
      !insideAny(target, line.except) &&
      !(typeOnly && insideAny(target, line.exceptTypes)),
  ).map((line) => line.because);
}

const textOf = (node) => {
  if (node?.type === 'Literal' && typeof node.value === 'string') return node.value;
  // a template without holes is a plain string
  if (node?.type === 'TemplateLiteral' && node.expressions.length === 0) return node.quasis[0].value.cooked;
  return undefined;
};

const isImportMeta = (node, property) =>
  node?.type === 'MemberExpression' &&
  node.object.type === 'MetaProperty' &&
  node.property.type === 'Identifier' &&
  node.property.name === property;

const importDirection = {
  meta: { type: 'problem', docs: { description: 'imports run one way (scripts/lint/directions.js)' } },
  create(context) {
    const path = context.filename ?? context.getFilename();
    const file = fromRoot(path);

    const judge = (node, specifier, typeOnly) => {
      if (specifier === undefined) return;
      for (const because of brokenDirections(file, targetOf(specifier, path), typeOnly)) {
        context.report({ node, message: `'${specifier}': ${because}` });
      }
    };

    return {
      // `import { type A }` is not type-only: the compiler keeps it as a bare import (verbatimModuleSyntax)
      ImportDeclaration: (node) => judge(node, textOf(node.source), node.importKind === 'type'),
      ExportNamedDeclaration: (node) =>
        node.source && judge(node, textOf(node.source), node.exportKind === 'type'),
      ExportAllDeclaration: (node) => judge(node, textOf(node.source), node.exportKind === 'type'),
      ImportExpression: (node) => judge(node, textOf(node.source), false),
      TSImportType: (node) =>
        judge(node, textOf(node.source ?? node.argument?.literal ?? node.argument), true),
      // new URL('./entry.ts', import.meta.url): how a worker is named
      NewExpression(node) {
        const isUrl = node.callee.type === 'Identifier' && node.callee.name === 'URL';
        if (isUrl && isImportMeta(node.arguments[1], 'url')) judge(node, textOf(node.arguments[0]), false);
      },
      CallExpression(node) {
        if (!isImportMeta(node.callee, 'glob')) return;
        const [patterns] = node.arguments;
        const all = patterns?.type === 'ArrayExpression' ? patterns.elements : [patterns];
        for (const pattern of all) judge(node, textOf(pattern), false);
      },
    };
  },
};

const pureCore = {
  meta: { type: 'problem', docs: { description: 'the core gives the same answer every time it is asked' } },
  create: (context) => ({
    MemberExpression(node) {
      const isMath = node.object.type === 'Identifier' && node.object.name === 'Math';
      const name = node.computed ? textOf(node.property) : node.property.name;
      if (isMath && name === 'random') {
        context.report({ node, message: 'sim is pure: take a seeded generator as an argument' });
      }
    },
  }),
};

// the linter asks for a plugin as the module's default export
export default {
  meta: { name: 'house' },
  rules: { 'import-direction': importDirection, 'pure-core': pureCore },
};
