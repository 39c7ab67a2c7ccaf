/** The light of the room, and linear light to the values of the screen; wants uSky, uGround, uKey, uFill. */
export const STUDIO_GLSL = /* glsl */ `
vec3 toScreen(vec3 c) {
  return mix(1.055 * pow(max(c, vec3(0.0)), vec3(1.0 / 2.4)) - 0.055, c * 12.92, vec3(lessThanEqual(c, vec3(0.0031308))));
}

/* Light that arrives along a direction (view space): a dim room, a long soft panel overhead, strips left, right and behind. */
vec3 room(vec3 d, float soft) {
  vec3 c = mix(uGround, uSky, smoothstep(-0.75, 0.85, d.y));
  float over = smoothstep(0.55 - soft, 0.90, dot(d, normalize(vec3(-0.34, 0.80, 0.50))));
  float right = smoothstep(0.62 - soft, 0.98, dot(d, normalize(vec3(0.90, 0.22, 0.30))));
  float left = smoothstep(0.66 - soft, 1.0, dot(d, normalize(vec3(-0.95, 0.05, 0.10))));
  float rim = smoothstep(0.30, 0.95, dot(d, normalize(vec3(0.20, 0.50, -0.84))));
  return c + uKey * (over + uFill * right + 0.6 * uFill * left + 0.45 * rim);
}
`;

/**
 * One program draws both members: steel under a plain studio light worked out per pixel, and on flanks the marking
 * compound, the rubbed mark and the contact lines, looked up per pixel from the solver's grids.
 * Paint is mixed in after the light, in the colours of the screen: it is never lit to another colour.
 */
export const MEMBER_VERTEX = /* glsl */ `
in vec2 flankUv;
in float kind;
in float open;
#ifdef USE_INSTANCING
in float painted;
#endif

uniform mat4 uMember;

out vec3 vView;
out vec3 vNormal;
out vec3 vRest;
out vec3 vStage;
out vec2 vFlankUv;
out float vKind;
out float vOpen;
flat out float vTooth;
flat out float vPainted;

void main() {
  vec4 rest = vec4(position, 1.0);
  vec3 turned = normal;
  vTooth = 0.0;
  vPainted = 0.0;
  #ifdef USE_INSTANCING
    rest = instanceMatrix * rest;
    turned = mat3(instanceMatrix) * turned;
    vTooth = float(gl_InstanceID);
    vPainted = painted;
  #endif
  vec4 view = modelViewMatrix * rest;
  vView = view.xyz;
  vNormal = normalMatrix * turned;
  vRest = rest.xyz;
  vStage = (uMember * rest).xyz;
  vFlankUv = flankUv;
  vKind = kind;
  vOpen = open;
  gl_Position = projectionMatrix * view;
}
`;

export const MEMBER_FRAGMENT = /* glsl */ `
precision highp float;
precision highp sampler2D;

uniform sampler2D uDrive;
uniform sampler2D uCoast;
uniform vec2 uGrid;
uniform float uFilm;
uniform float uRoll;
uniform float uPitch;
uniform float uWrap;
uniform float uCoastShift;
uniform vec3 uCompound;
uniform vec3 uMark;
uniform vec3 uLine;
uniform vec3 uLineCasing;
uniform float uLines;
uniform float uRelief;
uniform float uPixel;

uniform vec4 uCut;
uniform vec3 uSection;
uniform float uGlow;
uniform float uOpacity;

uniform vec3 uSteel;
uniform vec3 uSky;
uniform vec3 uGround;
uniform vec3 uKey;
uniform float uFill;

uniform vec3 uNearOrigin;
uniform vec3 uNearAxis;
uniform vec4 uNearCone;
uniform vec4 uNearRing;
uniform float uOpacityOfOther;

in vec3 vView;
in vec3 vNormal;
in vec3 vRest;
in vec3 vStage;
in vec2 vFlankUv;
in float vKind;
in float vOpen;
flat in float vTooth;
flat in float vPainted;

out vec4 outColor;

const float NEVER = 5.0e5;

${STUDIO_GLSL}
/* Marks a tool leaves, −1…1, along a coordinate in mm; gone where a pixel covers more than a mark. */
float toolMarks(float at) {
  float step = fwidth(at);
  float fine = sin(at * 41.0) * (1.0 - smoothstep(0.02, 0.07, step));
  float coarse = sin(at * 13.0 + 2.0 * sin(at * 2.3)) * (1.0 - smoothstep(0.06, 0.22, step));
  return 0.5 * fine + 0.5 * coarse;
}

/* Bilinear blend of four texels and its gradient along u and v. */
struct Flank { vec3 at; vec3 du; vec3 dv; bool meets; };

Flank flankAt(sampler2D grid, vec2 uv) {
  vec2 g = clamp((uv * 0.5 + 0.5) * (uGrid - 1.0), vec2(0.0), uGrid - 1.0);
  vec2 cell = min(floor(g), uGrid - 2.0);
  vec2 f = g - cell;
  ivec2 i = ivec2(cell);
  vec3 a = texelFetch(grid, i, 0).xyz;
  vec3 b = texelFetch(grid, i + ivec2(1, 0), 0).xyz;
  vec3 c = texelFetch(grid, i + ivec2(0, 1), 0).xyz;
  vec3 d = texelFetch(grid, i + ivec2(1, 1), 0).xyz;
  Flank flank;
  flank.meets = max(max(a.x, b.x), max(c.x, d.x)) < NEVER;
  flank.at = mix(mix(a, b, f.x), mix(c, d, f.x), f.y);
  flank.du = mix(b - a, d - c, f.y) * 0.5 * (uGrid.x - 1.0);
  flank.dv = mix(c - a, d - b, f.x) * 0.5 * (uGrid.y - 1.0);
  return flank;
}

void main() {
  bool cut = dot(uCut.xyz, vRest) > uCut.w;
  if (cut) discard;

  vec2 uvX = dFdx(vFlankUv);
  vec2 uvY = dFdy(vFlankUv);

  if (!gl_FrontFacing) {
    // hatched as a drawing office would
    float hatch = fract((gl_FragCoord.x + gl_FragCoord.y) / (9.0 * uPixel));
    outColor = vec4(uSection * mix(1.0, 1.22, smoothstep(0.0, 0.08, hatch) - smoothstep(0.12, 0.2, hatch)), 1.0) * uOpacity;
    return;
  }

  vec3 n = normalize(vNormal);
  vec3 eye = normalize(-vView);
  float facing = max(dot(n, eye), 0.0);
  vec3 mirrored = reflect(-eye, n);

  float shade = mix(0.30, 1.0, vOpen * vOpen * (3.0 - 2.0 * vOpen));
  #ifdef IS_RING
    vec3 arm = vStage - uNearOrigin;
    float along = dot(arm, uNearAxis);
    float reach = length(arm - along * uNearAxis);
    float tip = mix(uNearCone.z, uNearCone.w, clamp((along - uNearCone.x) / (uNearCone.y - uNearCone.x), 0.0, 1.0));
    float span = uNearCone.y - uNearCone.x;
    float inside = smoothstep(-0.6 * span, 0.1 * span, along - uNearCone.x) * smoothstep(0.9 * span, 0.0, along - uNearCone.y);
    shade *= 1.0 - 0.62 * uOpacityOfOther * inside * smoothstep(tip * 1.05, 0.0, reach - tip);
  #else
    float radius = length(vStage.xy);
    float over = smoothstep(uNearRing.x * 0.72, uNearRing.x, radius) * smoothstep(uNearRing.y * 1.22, uNearRing.y, radius);
    shade *= 1.0 - 0.5 * over * smoothstep(uNearRing.z + 0.28 * uNearRing.x, uNearRing.z, vStage.z);
  #endif

  #ifdef IS_TURNED
    #ifdef IS_RING
      float marks = toolMarks(length(vRest.xy) + vRest.z);
    #else
      float marks = toolMarks(length(vRest.yz) + vRest.x);
    #endif
    marks *= 0.10;
  #else
    float marks = toolMarks(vFlankUv.y * 4.0) * 0.05;
  #endif

  float lit = 0.5 + 0.5 * dot(n, normalize(vec3(-0.3, 0.72, 0.62)));
  vec3 base = mix(uGround, uSky, lit) * 0.55 + uKey * 0.20 * lit * lit;
  vec3 sheen = room(mirrored, 0.22) * mix(0.50, 1.0, pow(1.0 - facing, 4.0)) * (1.0 + marks);
  vec3 steel = uSteel * (base + sheen) * shade;
  vec3 color = toScreen(steel / (1.0 + 0.12 * steel));

  bool drive = abs(vKind - 1.0) < 0.01;
  bool coast = abs(vKind - 2.0) < 0.01;
  // seen through, a member shows mostly by its outline
  color += (1.0 - uOpacity) * (0.10 + 0.5 * (1.0 - facing) * (1.0 - facing)) * uGlow;
  float alpha = mix(clamp(uOpacity * (0.55 + 2.4 * (1.0 - facing) * (1.0 - facing)), 0.0, 1.0), 1.0, smoothstep(0.6, 1.0, uOpacity));
  if (drive || coast) {
    Flank flank;
    if (drive) flank = flankAt(uDrive, vFlankUv);
    else flank = flankAt(uCoast, vFlankUv);

    vec3 gx = flank.du * uvX.x + flank.dv * uvX.y;
    vec3 gy = flank.du * uvY.x + flank.dv * uvY.y;
    vec3 width = max(sqrt(gx * gx + gy * gy), vec3(1e-9));
    float opposite = flank.meets ? clamp(flank.at.y / width.y + 0.5, 0.0, 1.0) : 0.0;
    opposite *= clamp((vFlankUv.y + 1.0) / max(length(vec2(uvX.y, uvY.y)), 1e-6) + 0.5, 0.0, 1.0);
    float rubbed = opposite * clamp((uFilm - flank.at.x) / width.x + 0.5, 0.0, 1.0);

    #ifdef IS_RING
      float relief = mix(1.0, 0.62 + 0.46 * lit * mix(0.55, 1.0, shade), uRelief);
      vec3 paint = mix(uCompound * relief, uMark, rubbed);
      color = mix(color, paint, vPainted);
    #endif

    float off = flank.at.z - (uRoll + (vTooth + (coast ? uCoastShift : 0.0)) * uPitch);
    off -= uWrap * floor(off / uWrap + 0.5);
    float pixels = abs(off) / width.z;
    // too narrow to be a line from afar: fade it out instead of letting it grow
    float present = smoothstep(0.7, 2.5, 0.02 / width.z) * uLines * opposite * mix(0.62, 1.0, rubbed);
    float casing = 1.0 - smoothstep(1.2 * uPixel, 1.8 * uPixel, pixels);
    float core = 1.0 - smoothstep(0.45 * uPixel, 1.0 * uPixel, pixels);
    color = mix(color, uLineCasing, casing * present * 0.85);
    color = mix(color, uLine, core * present);
    alpha = max(alpha, core * present * step(0.001, uOpacity));
  }

  outColor = vec4(color * alpha, alpha);
}
`;
