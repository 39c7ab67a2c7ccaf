const PATHS = {
  minus: 'M5 12h14',
  plus: 'M5 12h14M12 5v14',
  left: 'M19 12H5m6-6-6 6 6 6',
  right: 'M5 12h14m-6-6 6 6-6 6',
  undo: 'M9 6 4 11l5 5M4 11h10a6 6 0 0 1 0 12h-2',
  redo: 'm15 6 5 5-5 5m5-5H10a6 6 0 0 0 0 12h2',
  settings: 'M4 7h9m5 0h2M4 17h2m5 0h9M13 4.5v5M18 7h-5M11 14.5v5M6 17h5',
  help: 'M9.2 9a3 3 0 1 1 4.3 2.7c-1 .5-1.5 1.1-1.5 2.3m0 3.6v.1M12 22a10 10 0 1 0 0-20 10 10 0 0 0 0 20',
  close: 'm6 6 12 12M18 6 6 18',
  check: 'm5 13 4.5 4.5L19 7',
  down: 'm6 9 6 6 6-6',
  link: 'M10 14a4 4 0 0 0 6 .4l3-3a4 4 0 0 0-5.7-5.7l-1.4 1.4M14 10a4 4 0 0 0-6-.4l-3 3a4 4 0 0 0 5.7 5.7l1.4-1.4',
  contours:
    'M3 12c0-4 4-7 9-7s9 3 9 7-4 7-9 7-9-3-9-7m4 0c0-2 2-3.5 5-3.5s5 1.5 5 3.5-2 3.5-5 3.5-5-1.5-5-3.5',
  arrows: 'M12 12 4.5 4.5m0 5v-5h5M12 12l7.5 4m-5 1.6 5-1.6-1.6-5',
  traces: 'M3.5 20v.1M7.5 16.5v.1M11 12.5v.1M13 7.5h8M17 3.5v8',
  dismissTraces: 'M3.5 20v.1M7.5 16.5v.1M11 12.5v.1m2.5-8 6.5 6.5m0-6.5-6.5 6.5',
  caution: 'M12 9v5m0 3.2v.1M12 3 2.5 20h19z',
  lamp: 'M12 3v3m0 12v3m9-9h-3M6 12H3m15.4-6.4-2.2 2.2M7.8 16.2l-2.2 2.2m12.8 0-2.2-2.2M7.8 7.8 5.6 5.6M12 16a4 4 0 1 0 0-8 4 4 0 0 0 0 8',
  found: 'M12 21V5m-6 6 6-6 6 6',
  share: 'M12 15V3m-4.5 4.5L12 3l4.5 4.5M7 11H4.5v9.5h15V11H17',
  copy: 'M8 8V4h12v12h-4M4 8h12v12H4z',
  edit: 'M4 20h4L19 9l-4-4L4 16zm9-13 4 4',
  import: 'M12 3v12m-4.5-4.5L12 15l4.5-4.5M4.5 14v6.5h15V14',
  export: 'M12 15V3m-4.5 4.5L12 3l4.5 4.5M4.5 14v6.5h15V14',
  trash: 'M4 6.5h16M9 6.5V4h6v2.5M6.5 6.5 7.5 20h9l1-13.5M10.5 10v6.5m3-6.5v6.5',
  compare: 'M12 3v18M4 6h5v12H4zm11 0h5v12h-5z',
  spread: 'M12 12v.1M12 6a6 6 0 1 0 0 12 6 6 0 1 0 0-12m0-4v2m0 16v2M2 12h2m16 0h2',
  reset: 'M4 12a8 8 0 1 0 2.6-5.9M4 4v4.5h4.5',
} as const;

export type IconName = keyof typeof PATHS;

/** A line drawing that says the same as the words beside it; never the only label. */
export function Icon({ name, size = 20 }: { readonly name: IconName; readonly size?: number }) {
  return (
    <svg
      width={size}
      height={size}
      viewBox="0 0 24 24"
      fill="none"
      stroke="currentColor"
      strokeWidth={1.9}
      strokeLinecap="round"
      strokeLinejoin="round"
      aria-hidden="true"
      focusable="false"
    >
      <path d={PATHS[name]} />
    </svg>
  );
}
