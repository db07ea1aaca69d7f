#pragma once

// Names and titles that a page cannot letter on this machine.

#include "scene/scene.h"

/// Says on stderr which name or title has letters that no font here has, the first of them, and
/// what to install. For verbs that letter a page or a picture.
void tell_missing_letters(const backrow::scene::Scene& scene);
