import { FrontSide, GLSL3, type IUniform, ShaderMaterial, Vector2, Vector3 } from 'three';
import { LIGHT, type StageTheme, screenColour } from '../scene/colours.ts';
import { STUDIO_GLSL } from '../scene/memberShader.ts';
import type { Tone } from './parts.ts';

interface PartColours {
  /** linear */
  readonly steel: Readonly<Record<Tone, readonly [number, number, number]>>;
  /** faces of the section (#rrggbb on the screen) and their hatching */
  readonly section: Readonly<Record<Tone, string>>;
  readonly hatch: string;
  /** a part that is pointed at takes on this, the others this */
  readonly chosen: string;
  readonly quiet: string;
  /** brightness of the gears' steel while something else is chosen */
  readonly quietGears: number;
}

/** Shims carry the app's accent: they are what a person sets. */
export const PART_COLOURS: Readonly<Record<StageTheme, PartColours>> = {
  workshop: {
    steel: {
      cast: [0.2, 0.212, 0.226],
      steel: [0.56, 0.53, 0.49],
      bearing: [0.62, 0.635, 0.65],
      carrier: [0.34, 0.35, 0.362],
      spacer: [0.5, 0.42, 0.3],
      shim: [0.17, 0.56, 0.46],
      mark: [1.6, 0.95, 0.3],
    },
    section: {
      cast: '#474e55',
      steel: '#6d675f',
      bearing: '#8b949b',
      carrier: '#5a6167',
      spacer: '#7d6b4c',
      shim: '#74c7b1',
      mark: '#f2b960',
    },
    hatch: '#15181a',
    chosen: '#f0d9a4',
    quiet: '#16191b',
    quietGears: 0.6,
  },
  projector: {
    steel: {
      cast: [0.4, 0.405, 0.41],
      steel: [0.62, 0.59, 0.54],
      bearing: [0.66, 0.67, 0.685],
      carrier: [0.46, 0.47, 0.48],
      spacer: [0.56, 0.46, 0.32],
      shim: [0.02, 0.3, 0.24],
      mark: [0.55, 0.16, 0.01],
    },
    section: {
      cast: '#b9bcbd',
      steel: '#a59d91',
      bearing: '#d3d8db',
      carrier: '#9aa0a4',
      spacer: '#c0a878',
      shim: '#00806b',
      mark: '#7a4700',
    },
    hatch: '#30363a',
    chosen: '#d07a00',
    quiet: '#e9e8e4',
    quietGears: 1.7,
  },
};

export type PartUniforms = Record<string, IUniform>;

/** Values every part shares: the light of the room. */
export function createRoomUniforms(): PartUniforms {
  return {
    uSky: { value: new Vector3() },
    uGround: { value: new Vector3() },
    uKey: { value: new Vector3() },
    uFill: { value: 0 },
    uHatch: { value: new Vector3() },
    uChosenColour: { value: new Vector3() },
    uQuietColour: { value: new Vector3() },
    /** 1: something is chosen, what is not steps back */
    uQuiet: { value: 0 },
  };
}

export function setRoom(room: PartUniforms, theme: StageTheme): void {
  const light = LIGHT[theme];
  (room.uSky.value as Vector3).set(...light.sky);
  (room.uGround.value as Vector3).set(...light.ground);
  (room.uKey.value as Vector3).set(...light.key);
  room.uFill.value = light.fill;
  screenColour(room.uHatch.value as Vector3, PART_COLOURS[theme].hatch);
  screenColour(room.uChosenColour.value as Vector3, PART_COLOURS[theme].chosen);
  screenColour(room.uQuietColour.value as Vector3, PART_COLOURS[theme].quiet);
}

/**
 * Steel of a part under the stage's light, and hatched faces where it is cut. `hatch` +1 or −1: which way its lines
 * lean, so that neighbours differ; `pitch` mm between lines.
 */
export function createPartMaterial(room: PartUniforms, hatch: 1 | -1, pitch: number): ShaderMaterial {
  const material = new ShaderMaterial({
    name: 'housing part',
    glslVersion: GLSL3,
    vertexShader: VERTEX,
    fragmentShader: FRAGMENT,
    side: FrontSide,
    toneMapped: false,
  });
  material.uniforms = {
    ...room,
    uSteel: { value: new Vector3() },
    uSection: { value: new Vector3() },
    uLean: { value: new Vector2(hatch, pitch) },
    uChosen: { value: 0 },
    /** y and radius of a bore that is left free of this part; radius 0: none */
    uBore: { value: new Vector2() },
  };
  return material;
}

export function setPartTheme(material: ShaderMaterial, tone: Tone, theme: StageTheme): void {
  (material.uniforms.uSteel.value as Vector3).set(...PART_COLOURS[theme].steel[tone]);
  screenColour(material.uniforms.uSection.value as Vector3, PART_COLOURS[theme].section[tone]);
}

const VERTEX = /* glsl */ `
in float cut;
in float open;

out vec3 vView;
out vec3 vNormal;
out vec3 vPlace;
out float vOpen;
flat out float vCut;

void main() {
  vec4 view = modelViewMatrix * vec4(position, 1.0);
  vView = view.xyz;
  vNormal = normalMatrix * normal;
  vPlace = position;
  vOpen = open;
  vCut = cut;
  gl_Position = projectionMatrix * view;
}
`;

const FRAGMENT = /* glsl */ `
precision highp float;

uniform vec3 uSky;
uniform vec3 uGround;
uniform vec3 uKey;
uniform float uFill;
uniform vec3 uHatch;
uniform vec3 uChosenColour;
uniform vec3 uQuietColour;
uniform float uQuiet;
uniform vec3 uSteel;
uniform vec3 uSection;
uniform vec2 uLean;
uniform float uChosen;
uniform vec2 uBore;

in vec3 vView;
in vec3 vNormal;
in vec3 vPlace;
in float vOpen;
flat in float vCut;

out vec4 outColor;
${STUDIO_GLSL}
void main() {
  if (uBore.y > 0.0 && vPlace.x > 0.0 && length(vPlace.yz - vec2(uBore.x, 0.0)) < uBore.y) discard;

  vec3 n = normalize(vNormal);
  vec3 eye = normalize(-vView);
  float facing = max(dot(n, eye), 0.0);
  vec3 color;
  if (vCut > 0.5) {
    // lines of even width on the screen, gone where they would run together
    float at = (vPlace.x + uLean.x * vPlace.z) / uLean.y;
    float step = fwidth(at);
    float line = 1.0 - smoothstep(0.7, 1.5, abs(fract(at) - 0.5) / max(step, 1e-6));
    line *= 1.0 - smoothstep(0.22, 0.45, step);
    color = mix(uSection, uHatch, 0.55 * line);
    // flat on, it takes the light evenly
    color *= mix(0.8, 1.0, facing);
    color = mix(color, uChosenColour, 0.55 * uChosen * (1.0 - 0.5 * line));
  } else {
    float lit = 0.5 + 0.5 * dot(n, normalize(vec3(-0.3, 0.72, 0.62)));
    vec3 base = mix(uGround, uSky, lit) * 0.75 + uKey * 0.26 * lit * lit;
    vec3 sheen = room(reflect(-eye, n), 0.3) * mix(0.34, 0.85, pow(1.0 - facing, 4.0));
    vec3 steel = uSteel * (base + sheen) * vOpen;
    color = toScreen(steel / (1.0 + 0.12 * steel));
    color = mix(color, uChosenColour * (0.45 + 0.65 * lit), 0.6 * uChosen);
  }
  outColor = vec4(mix(color, uQuietColour, 0.48 * uQuiet * (1.0 - uChosen)), 1.0);
}
`;
