#include "report/certainty_picture.h"

#include "casework/wording.h"
#include "report/plain_words.h"

namespace dryout::report {
namespace {

constexpr double picture_width = 487.0;
constexpr double bar_left = 4.0;
constexpr double bar_width = picture_width - 8.0;
constexpr double row_height = 27.0;
constexpr double lettering = 9.0;

}  // namespace

Picture certainty_picture(const std::vector<CertaintyRow>& rows) {
  Picture picture;
  picture.width = picture_width;
  picture.height = row_height * static_cast<double>(rows.size()) + 4.0;
  picture.told = "How likely each explanation is.";
  double top = 0.0;
  for (const CertaintyRow& row : rows) {
    const std::string share =
        certainty_word(row.probability) + ", " + casework::percent(row.probability.value());
    const double title_width = bar_width - 0.62 * lettering * static_cast<double>(share.size());
    picture.shapes.emplace_back(Words{{bar_left, top + 11.0},
                                      fitted(row.title, lettering, title_width),
                                      lettering,
                                      Ink::text,
                                      Words::Anchor::start,
                                      false,
                                      true});
    picture.shapes.emplace_back(Words{{bar_left + bar_width, top + 11.0},
                                      share,
                                      lettering,
                                      Ink::text,
                                      Words::Anchor::end,
                                      false,
                                      false});
    picture.shapes.emplace_back(Box{{bar_left, top + 15.0}, bar_width, 7.0, Ink::wash});
    picture.shapes.emplace_back(
        Box{{bar_left, top + 15.0}, bar_width * row.probability.value(), 7.0, Ink::after});
    picture.told += ' ' + row.title + ": " + share + '.';
    top += row_height;
  }
  return picture;
}

}  // namespace dryout::report
