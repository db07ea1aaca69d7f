// The light of a probe: one for every texel that it covers.

layout(location = 0) out float light;

void main() { light = 1.0; }
