/**
 * Shim arithmetic that is cheap enough for the app's own thread: the app reaches sim/assembly here and nowhere else.
 */
import { explainPinionShim, explainSides } from '../assembly/explain.ts';
import { carrierPreloadChange, poseOfFitment } from '../assembly/fitment.ts';
import { fittedAtDesign, fittedNow } from '../assembly/hardware.ts';
import { pinionShimSign } from '../assembly/pinionDepth.ts';
import { sidePush, transferToRingSide, travelPerNotch } from '../assembly/sides.ts';
import { nextTotal, possibleTotals } from '../assembly/stock.ts';

export {
  carrierPreloadChange,
  explainPinionShim,
  explainSides,
  fittedAtDesign,
  fittedNow,
  nextTotal,
  pinionShimSign,
  poseOfFitment,
  possibleTotals,
  sidePush,
  transferToRingSide,
  travelPerNotch,
};
