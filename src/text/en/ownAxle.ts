/** Own axles: the list, the editor, what is not known. Loaded with them. */
export const ownAxle = {
  'ownAxle.list.title': 'Own axles',
} as const;
