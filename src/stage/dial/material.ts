import { GLSL3, type IUniform, ShaderMaterial, Vector3 } from 'three';
import { STUDIO_GLSL } from '../scene/memberShader.ts';

/** The light of the room, shared by all parts of the instrument. */
export const createLightUniforms = (): Record<string, IUniform> => ({
  uSky: { value: new Vector3() },
  uGround: { value: new Vector3() },
  uKey: { value: new Vector3() },
  uFill: { value: 0 },
});

const VERTEX = /* glsl */ `
out vec3 vView;
out vec3 vNormal;
void main() {
  vec4 view = modelViewMatrix * vec4(position, 1.0);
  vView = view.xyz;
  vNormal = normalMatrix * normal;
  gl_Position = projectionMatrix * view;
}
`;

const FRAGMENT = /* glsl */ `
precision highp float;
uniform vec3 uColour;
uniform float uGloss;
uniform vec3 uSky;
uniform vec3 uGround;
uniform vec3 uKey;
uniform float uFill;
in vec3 vView;
in vec3 vNormal;
out vec4 outColor;
${STUDIO_GLSL}
void main() {
  vec3 n = normalize(vNormal);
  vec3 eye = normalize(-vView);
  float facing = max(dot(n, eye), 0.0);
  float lit = 0.5 + 0.5 * dot(n, normalize(vec3(-0.3, 0.72, 0.62)));
  vec3 base = mix(uGround, uSky, lit) * 0.75 + uKey * 0.42 * lit * lit;
  vec3 sheen = room(reflect(-eye, n), 0.22) * mix(0.5, 1.0, pow(1.0 - facing, 4.0));
  vec3 c = uColour * (base + uGloss * sheen) + 0.03 * (1.0 - uGloss) * sheen;
  outColor = vec4(toScreen(c / (1.0 + 0.12 * c)), 1.0);
}
`;

/** A plain painted or polished part under the studio's light; `colour` linear, `gloss` 0 painted … 1 steel. */
export function createPartMaterial(
  light: Record<string, IUniform>,
  colour: readonly [number, number, number],
  gloss: number,
): ShaderMaterial {
  const material = new ShaderMaterial({
    name: 'instrument part',
    glslVersion: GLSL3,
    vertexShader: VERTEX,
    fragmentShader: FRAGMENT,
    toneMapped: false,
  });
  // the values themselves stay shared: a change of the light reaches every part
  material.uniforms = { ...light, uColour: { value: new Vector3(...colour) }, uGloss: { value: gloss } };
  return material;
}
