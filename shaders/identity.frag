// Whose face this is: 0 for everything that is no face.

#include "surface.glsl"

layout(location = 0) out uint identity;

void main() { identity = surface.face; }
