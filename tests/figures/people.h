#pragma once

// People for the tests.

#include "figures/figure.h"

#include <optional>
#include <string>
#include <vector>

namespace backrow::figures {

inline const std::vector<std::string>& some_names() {
    static const std::vector<std::string> names{"Odile", "Bram", "Sefu",  "Ines", "Tomas", "Wanja",
                                                "Yuki",  "Paul", "Marta", "Kofi", "Lena",  "Igor",
                                                "Nia",   "Ravi", "Elsa",  "Hugo", "Ada",   "Zora"};
    return names;
}

inline const std::vector<Posture>& all_postures() {
    static const std::vector<Posture> postures{
        Posture::standing,      Posture::seated,    Posture::kneeling, Posture::crouching,
        Posture::kneeling_both, Posture::on_ground, Posture::on_step};
    return postures;
}

inline Person adult(const std::string& name, Posture posture = Posture::standing,
                    double stature_m = 1.70) {
    Person person;
    person.name = name;
    person.measures = body_measures(stature_m, 34.0);
    person.pose.posture = posture;
    return person;
}

inline Person aged(const std::string& name, double age_years, Posture posture = Posture::standing) {
    Person person;
    person.name = name;
    person.measures = body_measures(stature_m_from_age(age_years, Sex::neutral), age_years);
    person.pose.posture = posture;
    return person;
}

}  // namespace backrow::figures
