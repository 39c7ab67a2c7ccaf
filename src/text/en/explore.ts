/** Work area Explore. */
export const explore = {
  'explore.title': 'Explore',
} as const;
