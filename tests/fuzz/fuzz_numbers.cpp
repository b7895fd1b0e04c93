// Numbers through the program: what is typed goes by the table of ranges into commands, what no
// table let in goes into a journal as an earlier version might have kept it, into a case file, and
// into the values of a set of one's own; then every view, both papers and the terminal print it.
#include <array>
#include <bit>
#include <cmath>
#include <cstring>
#include <sstream>
#include <vector>

#include "app/print_view.h"
#include "casework/apply_command.h"
#include "casework/case_file.h"
#include "casework/check_command.h"
#include "casework/mending_bench.h"
#include "casework/tables.h"
#include "casework/weigh_mending.h"
#include "casework/words.h"
#include "fuzz/fuzz_target.h"
#include "quantities/measure.h"
#include "quantities/value_list.h"
#include "report/bench_record.h"
#include "report/render.h"

using namespace dryout;
using namespace dryout::casework;
using fuzz::demand;

namespace {

constexpr std::int64_t morning = 1'772'614'800;

/// A number a line: as people type it where it can be read, else its bytes as a double.
class Numbers {
 public:
  explicit Numbers(std::string_view text) {
    std::istringstream stream{std::string(text)};
    for (std::string line; std::getline(stream, line) && lines_.size() < 12;) {
      lines_.push_back(line);
    }
  }
  [[nodiscard]] bool empty() const { return lines_.empty(); }
  std::string typed() { return lines_[at_++ % lines_.size()]; }
  double raw() {
    const std::string line = typed();
    if (const auto value = quantities::parse_engineering(line, quantities::Unit::none)) {
      return *value;
    }
    double value = 1.0;
    std::memcpy(&value, line.data(), std::min(line.size(), sizeof value));
    return value;
  }
  /// As a journal can hold it: JSON knows no other.
  double finite() {
    const double value = raw();
    return std::isfinite(value) ? value : 1e300;
  }

 private:
  std::vector<std::string> lines_;
  std::size_t at_ = 0;
};

void demand_short(const std::string& text) {
  demand(text.size() < 64);
  demand(text.find('\0') == std::string::npos);
}

/// The printing functions themselves take any double.
void print_alone(double value) {
  using quantities::Unit;
  for (const Unit unit : {Unit::none, Unit::ohm, Unit::farad, Unit::henry, Unit::volt, Unit::ampere,
                          Unit::second, Unit::hertz, Unit::celsius, Unit::watt}) {
    demand_short(quantities::format_engineering(value, unit));
  }
  demand_short(quantities::format_duration(quantities::Second(value)));
  for (int m = 0; m <= static_cast<int>(quantities::Measure::circuit_frequency); ++m) {
    const auto& range = quantities::range_of(static_cast<quantities::Measure>(m));
    const auto problem = quantities::out_of_range(range, value, "this");
    demand(problem.has_value() != range.contains(value));
    if (problem) demand(!problem->accepted.empty());
  }
}

void print_all(const Journal& journal, const knowledge::KnowledgeBase& knowledge,
               const readings::ReadingKnowledge& readings, const MendingKnowledge& figures) {
  GroundCache grounds(knowledge, readings);
  const CaseState state = state_of(journal);
  const auto ground = grounds.of(state);
  demand(ground.ok());
  const Reasoning reasoning = reason(**ground, state);
  const CaseInHand hand{**ground, state, reasoning};
  const CaseView view = build_view(1, journal, hand);
  demand(view.readings.size() == state.readings.size());
  std::ostringstream out;
  app::print_head(out, view);
  app::print_suspects(out, view, 100);
  app::print_boards(out, view);
  app::print_next(out, view, 100);
  app::print_log(out, view);
  for (const CheckView& check : view.next) app::print_check(out, check);
  for (const SuspectView& suspect : view.suspects) app::print_explanation(out, suspect);
  demand(out.str().find('\0') == std::string::npos);
  (void)readings_table(view);
  (void)suspects_table(view);
  if (!reasoning.refused.empty()) return;  // nothing to weigh it by
  const auto weighed = weigh_mending(hand, figures, 5.0);
  const MendingView mending = weighed ? *weighed : MendingView{};
  const report::Imprint imprint{"Bench", morning};
  for (const report::Document& paper : {report::owner_report(view, mending, imprint),
                                        report::bench_record(view, mending, imprint)}) {
    demand(report::render_html(paper, report::Paper::a4).bytes.find('\0') == std::string::npos);
  }
}

RecordReading raw_reading(Numbers& numbers, std::size_t i) {
  RecordReading reading;
  reading.item = i % 3 == 0 ? "C1" : "reservoirs";
  reading.kind = static_cast<ReadingKind>(i % all_words<ReadingKind>().size());
  reading.value = numbers.finite();
  reading.limit = numbers.finite();
  reading.limit_source = "datasheet";
  reading.lead_zero = numbers.finite();
  reading.frequency = quantities::Hertz(numbers.finite());
  reading.temperature = quantities::Celsius(numbers.finite());
  reading.in_circuit = i % 2 == 0;
  return reading;
}

/// The same by way of the texts that a face takes; false where a face refuses.
bool typed_reading(Numbers& numbers, RecordReading& reading) {
  const auto measure = measure_of(reading.kind);
  const auto value = quantities::parse_measure(numbers.typed(), measure);
  const auto limit = quantities::parse_limit(numbers.typed(), measure);
  const auto frequency = quantities::parse_measure("100k", quantities::Measure::frequency);
  if (!value || !limit || !frequency) return false;
  reading.value = *value;
  reading.limit = *limit;
  reading.lead_zero.reset();
  reading.frequency = quantities::Hertz(*frequency);
  reading.temperature = quantities::Celsius(23.0);
  return true;
}

}  // namespace

int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  Numbers numbers(fuzz::text_of(data, size));
  if (numbers.empty()) return 0;
  print_alone(numbers.raw());
  (void)quantities::parse_list(fuzz::text_of(data, size), quantities::Unit::ohm);
  static const auto figures = load_mending_knowledge({DRYOUT_SOURCE_DIR});
  demand(figures.ok());
  static const readings::ReadingKnowledge no_limits;
  knowledge::KnowledgeBase knowledge = tests::two_board_knowledge();
  // A set of one's own, as far as its file is read.
  for (knowledge::PartGroup& group : knowledge.equipment.front().groups) {
    const double farads = numbers.raw();
    const double volts = numbers.raw();
    const auto& range = quantities::range_of(quantities::Measure::marked_capacitance);
    const auto& rating = quantities::range_of(quantities::Measure::rated_volts);
    if (farads >= range.least && farads <= range.most)
      group.capacitance = quantities::Farad(farads);
    if (volts >= rating.least && volts <= rating.most) group.rated = quantities::Volt(volts);
  }
  GroundCache grounds(knowledge, no_limits);
  Journal journal{{1, morning, Command(tests::lantern_intake())}};
  NamePart part{"C1",
                "reservoirs",
                quantities::Farad(numbers.finite()),
                quantities::Volt(numbers.finite()),
                "",
                ""};
  Journal old = journal;
  old.push_back({2, morning + 60, Command(part)});
  for (std::size_t i = 0; i < 7; ++i) {
    RecordReading reading = raw_reading(numbers, i);
    old.push_back({static_cast<int>(old.size()) + 1, morning + 60, Command(reading)});
    if (reading.item == "C1") reading.item = "coupling";
    if (!typed_reading(numbers, reading)) continue;
    const auto entry = apply_command(journal, Command(reading), morning + 60, grounds);
    if (entry) journal.push_back(*entry);
  }
  print_all(journal, knowledge, no_limits, *figures);
  print_all(old, knowledge, no_limits, *figures);
  // What was kept by the rules is a case file that can be taken in; what was not is refused in
  // words.
  const auto read = read_cases_text(case_text({"", old}), "fuzz");
  demand(read.ok() && admit(journal, knowledge, grounds).ok());
  const auto admitted = admit(read->front().journal, knowledge, grounds);
  if (!admitted) fuzz::demand_reasons(admitted);
  return 0;
}
