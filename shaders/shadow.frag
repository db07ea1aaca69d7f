// Depth alone is wanted.

void main() {}
