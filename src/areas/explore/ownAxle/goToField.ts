/** Id of a field's control in the page. */
export const fieldId = (name: string): string => `own-axle ${name}`.replace(/[^a-zA-Z0-9-]+/g, '-');

/** Opens the part a field is in and puts the focus on it. */
export function goToField(name: string): void {
  const element = document.getElementById(fieldId(name));
  if (element === null) return;
  const part = element.closest('details');
  if (part !== null) part.open = true;
  element.focus();
  element.scrollIntoView({ block: 'center' });
}
