/** Whether this browser can draw the stage at all (WebGL 2); asks once, keeps no context. */
let answer: boolean | undefined;

export function canDraw(): boolean {
  if (answer === undefined) {
    const context = document.createElement('canvas').getContext('webgl2');
    answer = context !== null;
    context?.getExtension('WEBGL_lose_context')?.loseContext();
  }
  return answer;
}
