import react from '@vitejs/plugin-react';
import { defineConfig, type Plugin } from 'vite';
import { VitePWA } from 'vite-plugin-pwa';
import { META_POLICY } from './scripts/csp.mjs';

/** The policy goes into the built page only: the dev server needs inline styles and a web socket. */
function contentSecurityPolicy(): Plugin {
  return {
    name: 'meshwitness-csp',
    apply: 'build',
    transformIndexHtml: {
      order: 'post',
      handler: () => [
        {
          tag: 'meta',
          attrs: { 'http-equiv': 'Content-Security-Policy', content: META_POLICY },
          injectTo: 'head-prepend',
        },
      ],
    },
  };
}

/** Packages that change together and are of no use alone. */
const TOGETHER: readonly (readonly [chunk: string, packages: RegExp])[] = [
  ['react', /^(react|react-dom|scheduler|use-sync-external-store)$/],
  ['base-ui', /^(@base-ui|@floating-ui)\//],
  ['intl', /^(intl-messageformat|@formatjs\/.+)$/],
  // d3-contour draws the shim map alone: it comes with that picture
  ['d3', /^(d3-(?!contour$).+|internmap)$/],
];

/**
 * A chunk per package: an update of one leaves the others in the browser's cache. Every package gets one, since a small
 * one left in the app's own chunk would be needed there by the chunks that the app waits for.
 */
function vendorChunk(id: string): string | null {
  const found = /.*node_modules[\\/]((?:@[^\\/]+[\\/])?[^\\/]+)/.exec(id);
  if (found === null) return null;
  const name = found[1].replace('\\', '/');
  return TOGETHER.find(([, packages]) => packages.test(name))?.[0] ?? name.replace('@', '').replace('/', '-');
}

export default defineConfig({
  // relative addresses: the bundle works from any folder of any HTTPS host, and from localhost
  base: './',
  plugins: [
    react(),
    contentSecurityPolicy(),
    VitePWA({
      registerType: 'autoUpdate',
      injectRegister: 'script-defer',
      // never in development: a cached page would hide the edit just made
      devOptions: { enabled: false },
      manifest: {
        name: 'Meshwitness',
        short_name: 'Meshwitness',
        description: 'See what a shim will do to the teeth before you pull a bearing.',
        lang: 'en',
        start_url: './',
        scope: './',
        display: 'standalone',
        background_color: '#141618',
        theme_color: '#141618',
        icons: [
          { src: 'icon.svg', sizes: 'any', type: 'image/svg+xml', purpose: 'any' },
          { src: 'icon-192.png', sizes: '192x192', type: 'image/png', purpose: 'any' },
          { src: 'icon-512.png', sizes: '512x512', type: 'image/png', purpose: 'any' },
          { src: 'icon-maskable-512.png', sizes: '512x512', type: 'image/png', purpose: 'maskable' },
        ],
      },
      workbox: {
        globPatterns: ['**/*.{js,css,html,svg,png,woff2,json,webmanifest}'],
        maximumFileSizeToCacheInBytes: 4_000_000,
        cleanupOutdatedCaches: true,
        // a new version takes over at the next start; an open page keeps running on what it has already loaded
        skipWaiting: true,
        clientsClaim: true,
        sourcemap: false,
      },
    }),
  ],
  worker: { format: 'es' },
  build: {
    target: 'es2022',
    // three is one package of 740 kB (188 kB as sent) and cannot be cut smaller
    chunkSizeWarningLimit: 800,
    sourcemap: true,
    // what we bundle asks for its notice to travel along
    license: { fileName: 'licences.md' },
    // every browser with module workers and WebGL 2 preloads by itself
    modulePreload: { polyfill: false },
    rolldownOptions: {
      checks: { bundlerTimings: false },
      output: {
        codeSplitting: {
          includeDependenciesRecursively: false,
          groups: [{ name: vendorChunk, debugName: 'a chunk per package' }],
        },
      },
    },
  },
});
