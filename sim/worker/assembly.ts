/**
 * Shim arithmetic that is cheap enough for the app's own thread: the app reaches sim/assembly here and nowhere else.
 */
import { explainPinionShim, explainSides } from '../assembly/explain.ts';
import { poseOfFitment } from '../assembly/fitment.ts';
import { fittedAtDesign, fittedNow } from '../assembly/hardware.ts';
import { pinionInFromShim, pinionPreloadEffect, pinionShimSign } from '../assembly/pinionDepth.ts';
import {
  fineness,
  preloadChange,
  realSetting,
  ringAwayFromSides,
  settingForPush,
  sidePush,
  sidesForRingAway,
  travelPerNotch,
} from '../assembly/sides.ts';
import { nearestTotal, possibleTotals } from '../assembly/stock.ts';

export {
  explainPinionShim,
  explainSides,
  fineness,
  fittedAtDesign,
  fittedNow,
  nearestTotal,
  pinionInFromShim,
  pinionPreloadEffect,
  pinionShimSign,
  poseOfFitment,
  possibleTotals,
  preloadChange,
  realSetting,
  ringAwayFromSides,
  settingForPush,
  sidePush,
  sidesForRingAway,
  travelPerNotch,
};
