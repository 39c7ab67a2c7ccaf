export function NearestMakeable(_: { readonly name: string }) {
  return null;
}
