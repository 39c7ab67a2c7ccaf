import { CanvasTexture, SRGBColorSpace } from 'three';
import { type DialScale, numberAt } from '../../units/dialScale.ts';

const SIZE = 512;
const PAPER = '#f7f2e6';
const INK = '#25221d';

/** The divided face as it is printed, zero at the top; the same divisions as the face beside the picture. */
export function createFaceTexture(scale: DialScale, fontFamily: string): CanvasTexture {
  const canvas = document.createElement('canvas');
  canvas.width = SIZE;
  canvas.height = SIZE;
  const draw = canvas.getContext('2d');
  if (draw !== null) drawFace(draw, scale, fontFamily);
  const texture = new CanvasTexture(canvas);
  texture.colorSpace = SRGBColorSpace;
  texture.anisotropy = 8;
  return texture;
}

function drawFace(draw: CanvasRenderingContext2D, scale: DialScale, fontFamily: string): void {
  const middle = SIZE / 2;
  const rim = middle - 10;
  draw.fillStyle = PAPER;
  draw.fillRect(0, 0, SIZE, SIZE);
  draw.strokeStyle = INK;
  draw.fillStyle = INK;
  draw.textAlign = 'center';
  draw.textBaseline = 'middle';
  draw.font = `700 46px ${fontFamily}`;
  for (let line = 0; line < scale.lines; line++) {
    const turn = (2 * Math.PI * line) / scale.lines;
    const [x, y] = [Math.sin(turn), -Math.cos(turn)];
    const numbered = line % scale.numberEvery === 0;
    const long = line % scale.longEvery === 0;
    const inner = rim - (numbered ? 42 : long ? 32 : 20);
    draw.lineWidth = numbered ? 7 : long ? 4.5 : 3;
    draw.beginPath();
    draw.moveTo(middle + x * rim, middle + y * rim);
    draw.lineTo(middle + x * inner, middle + y * inner);
    draw.stroke();
    const number = numberAt(scale, line);
    if (number !== null) draw.fillText(number, middle + x * (rim - 74), middle + y * (rim - 74));
  }
}
