import {
  FrontSide,
  GLSL3,
  type IUniform,
  type Matrix4,
  ShaderMaterial,
  Vector2,
  Vector3,
  Vector4,
} from 'three';
import { MEMBER_FRAGMENT, MEMBER_VERTEX } from './memberShader.ts';

/** Uniforms of one member, shared by its teeth and its body. Textures and the values of the paint are shared by both. */
export type MemberUniforms = Record<string, IUniform>;

/** Farther than any vertex: the cut that removes nothing. */
export const NO_CUT = 1e9;

/** Values both members use; one object, so that a change reaches every material. */
export function createPaintUniforms(): MemberUniforms {
  return {
    uDrive: { value: null },
    uCoast: { value: null },
    uGrid: { value: new Vector2(2, 2) },
    uFilm: { value: 0 },
    uRoll: { value: 0 },
    uPitch: { value: 1 },
    uCompound: { value: new Vector3() },
    uMark: { value: new Vector3() },
    uLine: { value: new Vector3() },
    uLineCasing: { value: new Vector3() },
    uLines: { value: 1 },
    uRelief: { value: 1 },
    uPixel: { value: 1 },
    uSection: { value: new Vector3() },
    uGlow: { value: 0 },
    uSky: { value: new Vector3() },
    uGround: { value: new Vector3() },
    uKey: { value: new Vector3() },
    uFill: { value: 0 },
  };
}

export function createMemberUniforms(paint: MemberUniforms, matrix: Matrix4): MemberUniforms {
  return {
    ...paint,
    uMember: { value: matrix },
    uWrap: { value: 2 * Math.PI },
    uCoastShift: { value: 0 },
    uCut: { value: new Vector4(0, 0, 0, NO_CUT) },
    uOpacity: { value: 1 },
    uOpacityOfOther: { value: 1 },
    uSteel: { value: new Vector3() },
    uNearOrigin: { value: new Vector3() },
    uNearAxis: { value: new Vector3(1, 0, 0) },
    uNearCone: { value: new Vector4(0, 1, 1, 1) },
    uNearRing: { value: new Vector4(1, 2, 0, 0) },
  };
}

/** Steel, paint and lines of one member; teeth and bodies (`turned` on a lathe) are programs of their own. */
export function createMemberMaterial(
  uniforms: MemberUniforms,
  member: 'ring' | 'pinion',
  turned: boolean,
): ShaderMaterial {
  const material = new ShaderMaterial({
    name: `${member} steel`,
    glslVersion: GLSL3,
    vertexShader: MEMBER_VERTEX,
    fragmentShader: MEMBER_FRAGMENT,
    defines: { ...(member === 'ring' && { IS_RING: '' }), ...(turned && { IS_TURNED: '' }) },
    side: FrontSide,
    premultipliedAlpha: true,
    toneMapped: false,
  });
  // The constructor copies the record; the values themselves must stay shared.
  material.uniforms = uniforms;
  return material;
}
