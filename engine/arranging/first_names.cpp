#include "arranging/first_names.h"

#include <fmt/format.h>

#include <array>
#include <string_view>

namespace backrow::arranging {
namespace {

constexpr std::array<std::string_view, 48> women{
    "Odile",  "Yuki",    "Amara",  "Ingrid",  "Priya",    "Lucia",   "Nadia",  "Zanele",
    "Maren",  "Leilani", "Sofija", "Aroha",   "Mireille", "Hana",    "Ximena", "Fatou",
    "Linnea", "Meera",   "Ines",   "Oksana",  "Thandi",   "Chiara",  "Yara",   "Signe",
    "Kamala", "Beatriz", "Aiko",   "Nkechi",  "Elif",     "Rosalie", "Tuuli",  "Marisol",
    "Dalia",  "Siobhan", "Vesna",  "Anahera", "Wanjiru",  "Paloma",  "Greta",  "Shirin",
    "Liora",  "Katalin", "Noor",   "Eilidh",  "Catalina", "Minh",    "Ruta",   "Abena"};
constexpr std::array<std::string_view, 48> men{
    "Bram",    "Sefu",   "Mateo",  "Anders",    "Femi",    "Tomas",   "Joon",   "Kofi",
    "Samuel",  "Teodor", "Rafael", "Haruto",    "Arjun",   "Lasse",   "Idris",  "Piotr",
    "Tane",    "Emre",   "Luca",   "Otieno",    "Duc",     "Matthis", "Ravi",   "Stellan",
    "Kwame",   "Diego",  "Milan",  "Keoni",     "Yusuf",   "Finnian", "Tariq",  "Bastien",
    "Olamide", "Jiro",   "Andrei", "Salvatore", "Nils",    "Sipho",   "Cem",    "Gael",
    "Levente", "Rohan",  "Eino",   "Manoel",    "Casimir", "Hamish",  "Vikram", "Jonas"};

}  // namespace

std::string NameList::next(figures::Sex sex) {
    const auto& names = sex == figures::Sex::female ? women : men;
    std::size_t& at = sex == figures::Sex::female ? next_woman_ : next_man_;
    for (;;) {
        const std::size_t round = at / names.size();
        const std::string_view name = names[at % names.size()];
        ++at;
        std::string whole = round == 0 ? std::string{name} : fmt::format("{} {}", name, round + 1);
        if (taken_.insert(whole).second)
            return whole;
    }
}

}  // namespace backrow::arranging
