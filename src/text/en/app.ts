/** The shell around the work areas. */
export const app = {
  'app.name': 'Meshwitness',
  'app.line': 'See what a shim will do to the teeth before you pull a bearing.',
} as const;
