#include "report/certainty_picture.h"

#include "casework/wording.h"
#include "report/plain_words.h"

namespace dryout::report {
namespace {

constexpr double bar_left = 4.0;
constexpr double full_bar = picture_width - 8.0;
constexpr double bar_pitch = 27.0;
constexpr double bar_lettering = 9.0;

}  // namespace

Picture certainty_picture(const std::vector<CertaintyRow>& rows) {
  Picture picture;
  picture.width = picture_width;
  picture.height = bar_pitch * static_cast<double>(rows.size()) + 4.0;
  picture.told = "How likely each explanation is.";
  double top = 0.0;
  for (const CertaintyRow& row : rows) {
    const std::string share =
        certainty_word(row.probability) + ", " + casework::percent(row.probability.value());
    const double title_width = full_bar - 0.62 * bar_lettering * static_cast<double>(share.size());
    picture.shapes.emplace_back(Words{{bar_left, top + 11.0},
                                      fitted(row.title, bar_lettering, title_width),
                                      bar_lettering,
                                      Ink::text,
                                      Words::Anchor::start,
                                      false,
                                      true});
    picture.shapes.emplace_back(Words{{bar_left + full_bar, top + 11.0},
                                      share,
                                      bar_lettering,
                                      Ink::text,
                                      Words::Anchor::end,
                                      false,
                                      false});
    picture.shapes.emplace_back(Box{{bar_left, top + 15.0}, full_bar, 7.0, Ink::wash});
    picture.shapes.emplace_back(
        Box{{bar_left, top + 15.0}, full_bar * row.probability.value(), 7.0, Ink::after});
    picture.told += ' ' + row.title + ": " + share + '.';
    top += bar_pitch;
  }
  return picture;
}

}  // namespace dryout::report
