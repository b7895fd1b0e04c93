#include "casework/workshop.h"

#include <algorithm>
#include <utility>

#include "casework/apply_command.h"
#include "casework/case_facts.h"
#include "casework/case_summaries.h"
#include "casework/caution_views.h"
#include "casework/check_command.h"
#include "casework/play_equipment.h"
#include "casework/shop_keeping.h"
#include "casework/shop_memory.h"
#include "casework/workshop_inside.h"

namespace dryout::casework {
using quantities::Done;
using quantities::Problem;
using quantities::Problems;
using quantities::Result;

Workshop::Workshop(std::unique_ptr<Inside> inside) : inside_(std::move(inside)) {}
Workshop::~Workshop() = default;

Result<std::unique_ptr<Workshop>> Workshop::open(const std::string& store_path,
                                                 knowledge::KnowledgeBase knowledge, Clock clock,
                                                 readings::ReadingKnowledge readings,
                                                 MendingKnowledge mending) {
  auto store = casestore::CaseStore::open(store_path);
  if (!store && casestore::CaseStore::is_for_reading_only(store_path)) {
    store = casestore::CaseStore::open_to_read(store_path);
  }
  if (!store) {
    return store.problems();
  }
  auto inside = std::make_unique<Inside>(std::move(*store), store_path, std::move(knowledge),
                                         std::move(readings), std::move(mending), std::move(clock));
  const auto version = inside->store.facts_version();
  if (!version) {
    return version.problems();
  }
  if (*version != facts_version && !inside->store.reads_only()) {
    if (const auto rebuilt = inside->rebuild_facts(); !rebuilt) {
      return rebuilt.problems();
    }
  }
  return std::make_unique<Workshop>(std::move(inside));
}

const knowledge::KnowledgeBase& Workshop::knowledge() const { return inside_->knowledge; }

void Workshop::give_files(OwnFiles files) { inside_->files = std::move(files); }
const OwnFiles& Workshop::files() const { return inside_->files; }

void Workshop::watch_knowledge(LookForEdits look) { inside_->look_for_edits = std::move(look); }

Result<bool> Workshop::take_up_edits() {
  auto edited = inside_->look_for_edits ? inside_->look_for_edits() : std::nullopt;
  if (!edited) {
    return false;
  }
  if (!*edited) {
    return edited->problems();
  }
  LoadedKnowledge fresh = std::move(*edited).value();
  inside_->grounds.forget();  // they point into what is replaced
  inside_->knowledge = std::move(fresh.base);
  inside_->reading_knowledge = std::move(fresh.readings);
  inside_->mending_knowledge = std::move(fresh.mending);
  inside_->vocabulary = std::move(fresh.vocabulary);
  inside_->renew_complaint_reader();
  return true;
}

Result<OwnSet> Workshop::look_at_own_set(const OwnSetWish& wish) const {
  const auto text = inside_->files.read(wish.file);
  if (!text) {
    return text.problems();
  }
  return describe_own_set(inside_->knowledge, *text, wish);
}

void Workshop::know_words(complaints::Vocabulary vocabulary) {
  inside_->vocabulary = std::move(vocabulary);
  inside_->renew_complaint_reader();
}

const complaints::ComplaintReader& Workshop::complaint_reader() const {
  if (!inside_->complaint_reader) {
    inside_->complaint_reader.emplace(inside_->knowledge, inside_->vocabulary);
  }
  return *inside_->complaint_reader;
}

Catalogue Workshop::catalogue() const {
  Catalogue catalogue =
      catalogue_of(inside_->knowledge, inside_->reading_knowledge, year_of(inside_->clock()));
  catalogue.complaint_reader = &complaint_reader();
  return catalogue;
}

Result<OwnSet> Workshop::keep_own_set(const OwnSetWish& wish) {
  auto set = look_at_own_set(wish);
  if (!set) {
    return set.problems();
  }
  const auto kept = inside_->files.keep(set->file_name, set->file_text, wish.replace);
  if (!kept) {
    return kept.problems();
  }
  inside_->grounds.forget();  // they point into the list of equipment
  auto& equipment = inside_->knowledge.equipment;
  if (auto* same = knowledge::find(equipment, set->id)) {
    *same = set->equipment;
  } else {
    equipment.push_back(set->equipment);
  }
  inside_->renew_complaint_reader();
  return set;
}

Result<std::vector<CaseSummary>> Workshop::cases(int most) const {
  if (const auto found = inside_->find_store(); !found) {
    return found.problems();
  }
  const auto rows = most > 0 ? inside_->store.list(most) : inside_->store.list();
  if (!rows) {
    return rows.problems();
  }
  return summaries_of(*rows, inside_->knowledge);
}

Result<std::vector<CaseSummary>> Workshop::search(const std::string& words) const {
  if (const auto found = inside_->find_store(); !found) {
    return found.problems();
  }
  const auto rows = inside_->store.search(words);
  if (!rows) {
    return rows.problems();
  }
  return summaries_of(*rows, inside_->knowledge);
}

Result<std::int64_t> Workshop::start(const TakeIn& intake) {
  if (const auto found = inside_->find_store(); !found) {
    return found.problems();
  }
  const std::int64_t now = inside_->clock();
  const Problems problems = check_intake(intake, inside_->knowledge, year_of(now));
  if (!problems.empty()) {
    return problems;
  }
  const Journal journal{{1, now, Command(intake)}};
  return inside_->store.create_case(facts_of(state_of(journal), inside_->knowledge),
                                    {to_event(journal.front())});
}

Result<Done> Workshop::enter(std::int64_t number, const Command& command) {
  return inside_->append(
      number,
      [&](const Journal& journal) {
        return apply_command(journal, command, inside_->clock(), inside_->grounds);
      },
      false);
}

Result<Done> Workshop::enter_undo(std::int64_t number) {
  return inside_->append(
      number,
      [&](const Journal& journal) {
        return casework::take_back(journal, 0, inside_->clock(), inside_->grounds);
      },
      true);
}

Result<Done> Workshop::enter_redo(std::int64_t number) {
  return inside_->append(
      number, [&](const Journal& journal) { return bring_back(journal, inside_->clock()); }, true);
}

Result<Done> Workshop::enter_take_back(std::int64_t number, int event) {
  return inside_->append(
      number,
      [&](const Journal& journal) -> Result<Entry> {
        if (event < 1) {
          return Problem{"no such step", {}, std::to_string(event), "the number of a step"};
        }
        return casework::take_back(journal, event, inside_->clock(), inside_->grounds);
      },
      false);
}

Result<CaseView> Workshop::apply(std::int64_t number, const Command& command) {
  return inside_->show_written(number, enter(number, command));
}

Result<CaseView> Workshop::apply_all(std::int64_t number, const std::vector<Command>& commands) {
  for (const Command& command : commands) {
    if (const auto written = enter(number, command); !written) {
      return written.problems();
    }
  }
  return view(number);
}

Result<CaseView> Workshop::undo(std::int64_t number) {
  return inside_->show_written(number, enter_undo(number));
}

Result<CaseView> Workshop::redo(std::int64_t number) {
  return inside_->show_written(number, enter_redo(number));
}

Result<CaseView> Workshop::take_back(std::int64_t number, int event) {
  return inside_->show_written(number, enter_take_back(number, event));
}

Result<CaseView> Workshop::view(std::int64_t number) const { return inside_->show(number); }

Result<MeasuringView> Workshop::cautions_at(std::int64_t number,
                                            const AcknowledgeCautions& heeding) const {
  const auto journal = inside_->refreshed(number);
  if (!journal) {
    return journal.problems();
  }
  return inside_->reasoned(number, [&](const CaseInHand& hand) -> Result<MeasuringView> {
    auto view = heeding_view(hand.ground, hand.state, heeding);
    if (!view) {
      return Problem{"nothing to heed has this name", {}, heeding.check, "a check or a part"};
    }
    return *std::move(view);
  });
}

Result<std::string> Workshop::damage(std::int64_t number) const {
  const auto journal = inside_->refreshed(number);
  return journal ? Result<std::string>(words_for_damage(inside_->cases.at(number)))
                 : journal.problems();
}

Result<PlanStep> Workshop::plan_ahead(std::int64_t number, int depth) const {
  const auto journal = inside_->refreshed(number);
  return journal ? inside_->plan_ahead(number, depth) : journal.problems();
}

Result<WhatIfView> Workshop::what_if(std::int64_t number,
                                     const std::vector<Command>& commands) const {
  const auto journal = inside_->refreshed(number);
  return journal ? inside_->what_if(number, commands) : journal.problems();
}

Result<std::unique_ptr<Workshop>> Workshop::beside() const {
  auto workshop = open(std::string(in_memory), inside_->knowledge, inside_->clock,
                       inside_->reading_knowledge, inside_->mending_knowledge);
  if (workshop) {
    (*workshop)->know_words(inside_->vocabulary);
  }
  return workshop;
}

Workshop::ShopFigures Workshop::shop_figures() const {
  const MendingKnowledge& known = inside_->mending_knowledge;
  ShopFigures figures;
  if (known.shop) {
    figures.now = decision::figures_of(*known.shop);
    figures.shipped = decision::figures_of(known.shipped_shop ? *known.shipped_shop : *known.shop);
  }
  return figures;
}

Result<Done> Workshop::set_shop_figure(const std::string& key, std::optional<double> value) {
  MendingKnowledge& known = inside_->mending_knowledge;
  if (!known.shipped_shop) {
    return Problem{"there are no figures of the shop to set", {}, "", "rules/decision/shop.json"};
  }
  auto settings = keep_shop_figure(inside_->files, *known.shipped_shop, key, value);
  if (!settings) {
    return settings.problems();
  }
  known.shop = std::move(settings).value();
  ++inside_->figures_edition;
  return Done{};
}

Result<MendingView> Workshop::mending(std::int64_t number, double horizon_years) const {
  const auto journal = inside_->refreshed(number);
  return journal ? inside_->mending(number, horizon_years) : journal.problems();
}

Result<planning::SimulationReport> Workshop::simulate(
    const std::string& equipment, planning::Habit habit,
    const planning::SimulationSettings& settings) const {
  return play_equipment(inside_->grounds, equipment, inside_->clock(), habit, settings);
}

Result<DrawnSet> Workshop::draw_set(const std::string& equipment, std::uint64_t seed) const {
  auto set = untouched_set(inside_->grounds, equipment, inside_->clock());
  if (!set) {
    return set.problems();
  }
  return DrawnSet::draw(*set->ground, set->evidence.network.plain(), std::move(set->bench), seed);
}

ShopMemory Workshop::shop() const {
  (void)inside_->find_store();  // where none is, an empty memory
  return {inside_->store, inside_->knowledge, inside_->reading_knowledge,
          inside_->history.has_value()};
}

Result<Done> Workshop::use_shop_history(bool on) {
  inside_->grounds.learn_from(nullptr);
  inside_->history.reset();
  if (on) {
    auto history = ShopHistory::read(inside_->store);
    if (!history) {
      return history.problems();
    }
    inside_->history = std::move(*history);
    inside_->grounds.learn_from(&*inside_->history);
  }
  return Done{};
}

Result<std::string> Workshop::export_case(std::int64_t number, LeftOut* left_out) const {
  const auto found = inside_->find_store();
  const auto file = found ? inside_->exchange().file_of(number, left_out) : found.problems();
  return file ? Result<std::string>(case_text(*file)) : file.problems();
}

Result<std::string> Workshop::export_all(LeftOut* left_out) const {
  const auto found = inside_->find_store();
  return found ? inside_->exchange().all_text(left_out) : found.problems();
}

Result<Done> Workshop::export_each(const CaseExchange::VisitText& visit, LeftOut* left_out) const {
  const auto found = inside_->find_store();
  return found ? inside_->exchange().each_text(visit, left_out) : found.problems();
}

Result<ImportReport> Workshop::import_many(const std::string& path) {
  const auto found = inside_->find_store();
  return found ? inside_->exchange().take_in_file(path) : found.problems();
}

bool Workshop::reads_only() const { return inside_->store.reads_only(); }

void Workshop::wait_for_store_at_most(std::chrono::milliseconds longest) {
  inside_->store.wait_at_most(longest);
}

bool Workshop::others_wrote() {
  const std::int64_t version = inside_->store.data_version();
  return std::exchange(inside_->data_version, version) != version;
}

bool store_is_in_use(const Problems& problems) {
  return std::any_of(problems.begin(), problems.end(), [](const Problem& problem) {
    return problem.message == casestore::store_in_use;
  });
}

void Workshop::leave_word(const std::string& word) { inside_->words.push_back(word); }

Result<std::string> Workshop::bench() const { return inside_->store.bench(); }

Result<ImportReport> Workshop::import_cases(const std::string& text, const std::string& file) {
  const auto found = inside_->find_store();
  return found ? inside_->exchange().take_in(text, file) : found.problems();
}

Result<ImportReport> Workshop::import_file(const std::string& path) {
  if (begins_as_many(path)) {
    return import_many(path);
  }
  const auto text = inside_->files.read(path);
  return text ? import_cases(*text, path) : text.problems();
}

Result<std::int64_t> Workshop::import_case(const std::string& text, const std::string& file) {
  const auto report = import_cases(text, file);
  if (!report) {
    return report.problems();
  }
  if (report->cases.size() != 1) {
    return Problem{"not one case",
                   {file, 0, {}},
                   std::to_string(report->cases.size()) + " cases",
                   "a file of one case"};
  }
  return report->cases.front().number;
}

Result<Done> Workshop::backup(const std::string& destination) const {
  const auto found = inside_->find_store();
  return found ? inside_->store.backup(destination) : found;
}

Result<Done> Workshop::rebuild_facts() {
  const auto found = inside_->find_store();
  return found ? inside_->rebuild_facts() : found;
}

Result<std::string> Workshop::restore(const std::string& backup, const std::string& store_path) {
  return casestore::CaseStore::restore(backup, store_path);
}

Result<Done> Workshop::check_integrity() const {
  if (auto found = inside_->find_store(); !found) {
    return found;
  }
  if (auto sound = inside_->store.check_integrity(); !sound) {
    return sound;
  }
  const knowledge::KnowledgeBase none;
  return inside_->store.check_facts(
      [&](const auto& events) { return facts_of_events(events, none); });
}

}  // namespace dryout::casework
