#include "vignettes/vignettes.h"

#include <algorithm>
#include <filesystem>
#include <system_error>

#include "casework/blame.h"
#include "casework/located_symptoms.h"
#include "diagnosis/located_symptom.h"
#include "diagnosis/posterior.h"
#include "documents/parse.h"
#include "documents/reader.h"
#include "quantities/check.h"

namespace dryout::vignettes {
namespace {

namespace fs = std::filesystem;
using diagnosis::CompiledFinding;
using diagnosis::CompiledNetwork;
using documents::Reader;
using quantities::Problems;

bool yes(const Reader& reader, std::string_view key) {
  return reader.one_of(key, {"no", "yes"}) == 1;
}

/// {"seen": "yes", "where": {"channel": "left"}, "follows": "not", "rate": "mains", "when": "cold"}
casework::ReportSymptom read_placed(const std::string& symptom, const Reader& reader) {
  reader.accept_only({"seen", "where", "follows", "rate", "when"});
  casework::ReportSymptom report{symptom,
                                 yes(reader, "seen") ? casework::Seen::yes : casework::Seen::no};
  if (const auto where = reader.optional_member("where")) {
    where->accept_only({"channel", "band", "path", "source"});
    report.where.channel = where->optional_text("channel").value_or("");
    report.where.band = where->optional_text("band").value_or("");
    report.where.path = where->optional_text("path").value_or("");
    report.where.source = where->optional_text("source").value_or("");
  }
  report.where.follows = reader.optional_text("follows").value_or("");
  report.where.rate = reader.optional_text("rate").value_or("");
  report.where.when = reader.optional_text("when").value_or("");
  return report;
}

Vignette read_vignette(const Reader& reader) {
  reader.accept_only({"id", "equipment", "year", "complaint", "symptoms", "outcomes", "expect_top1",
                      "expect_top3", "must_not_lead", "answer", "source", "why"});
  Vignette vignette;
  vignette.id = reader.id("id");
  vignette.equipment = reader.id("equipment");
  vignette.year = reader.whole_number("year", {.min = 1900, .max = year_now});
  const Reader symptoms = reader.object("symptoms");
  symptoms.for_each_member([&](const std::string& symptom, const Reader& told) {
    if (told.value().text() != nullptr) {
      vignette.symptoms.emplace_back(symptom, yes(symptoms, symptom));
    } else if (told.value().object_members() != nullptr) {
      vignette.placed.push_back(read_placed(symptom, told));
    } else {
      symptoms.for_each(symptom, [&](const Reader& each) {
        vignette.placed.push_back(read_placed(symptom, each));
      });
    }
  });
  reader.for_each("outcomes", [&](const Reader& outcome) {
    vignette.outcomes.push_back(
        {outcome.id("check"), outcome.optional_text("place").value_or(""), yes(outcome, "bad")});
  });
  vignette.expect_top1 = reader.texts("expect_top1");
  vignette.expect_top3 = reader.texts("expect_top3");
  vignette.must_not_lead = reader.optional_texts("must_not_lead");
  vignette.capacitor = reader.one_of("answer", {"other", "capacitor"}) == 1;
  if (const auto source = reader.optional_member("source"); source && source->has("document")) {
    vignette.document = source->text("document");
  }
  return vignette;
}

template <class Matches>
void take(const CompiledNetwork& compiled, Matches wanted, bool present, const std::string& what,
          Seen& seen) {
  const auto& findings = compiled.findings;
  const auto found = std::find_if(findings.begin(), findings.end(), wanted);
  if (found == findings.end()) {
    seen.unknown.push_back(what);
    return;
  }
  auto& list = present ? seen.evidence.present : seen.evidence.absent;
  list.push_back(static_cast<std::size_t>(found - findings.begin()));
}

/// What has a place, as findings behind those of the knowledge.
void take_placed(const knowledge::KnowledgeBase& knowledge, const Vignette& vignette,
                 CompiledNetwork& compiled, Seen& seen) {
  const auto* equipment = knowledge::find(knowledge.equipment, vignette.equipment);
  const knowledge::SignalPlaces places(knowledge, *equipment);
  std::vector<std::string> done;
  for (const auto& first : vignette.placed) {
    if (std::find(done.begin(), done.end(), first.symptom) != done.end()) continue;
    done.push_back(first.symptom);
    std::vector<diagnosis::PlacedAnswer> answers;
    for (const auto& each : vignette.placed) {
      if (each.symptom == first.symptom) {
        answers.push_back(casework::placed_answer(places, each));
      }
    }
    const diagnosis::LocatedSymptom located(knowledge, *equipment, compiled,
                                            *knowledge::find(knowledge.symptoms, first.symptom),
                                            answers);
    const auto add = [&](diagnosis::Finding finding, std::vector<std::size_t>& list) {
      list.push_back(compiled.network.findings.size());
      compiled.network.findings.push_back(std::move(finding));
    };
    if (std::any_of(answers.begin(), answers.end(), [](const auto& a) { return a.present; })) {
      add(located.present(), seen.evidence.present);
    }
    for (std::size_t i = 0; i < answers.size(); ++i) {
      if (!answers[i].present) add(located.absent(i), seen.evidence.absent);
    }
  }
}

/// An item can't be to blame more than it can be in a state that shows in the complaint.
std::vector<Suspect> most_they_can_be(const diagnosis::Network& network, const Seen& seen,
                                      const diagnosis::Posterior& posterior) {
  std::vector<std::vector<bool>> shows;
  for (const auto& item : network.items) shows.emplace_back(item.states.size());
  for (const std::size_t finding : seen.complaint) {
    for (const auto& cause : network.findings[finding].causes)
      shows[cause.item][cause.state] = true;
  }
  std::vector<Suspect> suspects;
  for (std::size_t i = 0; i < shows.size(); ++i) {
    double most = 0.0;
    for (std::size_t s = 0; s < shows[i].size(); ++s) {
      most += shows[i][s] ? posterior.items[i][s] : 0.0;
    }
    if (most > 0.0) suspects.push_back({i, most});
  }
  return suspects;
}

void sort_by_blame(std::vector<Suspect>& suspects) {
  std::stable_sort(suspects.begin(), suspects.end(),
                   [](const Suspect& a, const Suspect& b) { return a.blame > b.blame; });
}

}  // namespace

quantities::Result<std::vector<Vignette>> read_folder(const std::string& folder) {
  std::vector<std::string> files;
  std::error_code error;
  for (const auto& entry : fs::directory_iterator(folder, error)) {
    const bool schema = entry.path().stem().extension() == ".schema";
    if (entry.path().extension() == ".json" && !schema) files.push_back(entry.path().string());
  }
  std::sort(files.begin(), files.end());
  std::vector<Vignette> vignettes;
  Problems problems;
  for (const std::string& file : files) {
    const auto document = documents::read_file(file);
    if (!document) {
      problems.insert(problems.end(), document.problems().begin(), document.problems().end());
      continue;
    }
    const Reader root(*document, problems);
    root.for_each("vignettes",
                  [&](const Reader& each) { vignettes.push_back(read_vignette(each)); });
  }
  if (!problems.empty()) {
    return problems;
  }
  return vignettes;
}

Seen seen_in(const knowledge::KnowledgeBase& knowledge, const Vignette& vignette,
             CompiledNetwork& compiled) {
  Seen seen;
  take_placed(knowledge, vignette, compiled, seen);
  for (const auto& [symptom, there] : vignette.symptoms) {
    const auto wanted = [&symptom = symptom](const CompiledFinding& finding) {
      return finding.symptom == symptom;
    };
    take(compiled, wanted, there, symptom, seen);
  }
  seen.complaint = seen.evidence.present;
  for (const Outcome& outcome : vignette.outcomes) {
    const auto wanted = [&](const CompiledFinding& finding) {
      return finding.check == outcome.check && finding.place == outcome.place;
    };
    take(compiled, wanted, outcome.bad, outcome.check + '@' + outcome.place, seen);
  }
  if (seen.complaint.empty()) seen.complaint = seen.evidence.present;
  return seen;
}

std::vector<Suspect> leading_suspects(const diagnosis::Network& network, const Seen& seen) {
  const auto posterior = diagnosis::infer(network, seen.evidence);
  if (!posterior) {
    return {};
  }
  auto candidates = most_they_can_be(network, seen, *posterior);
  sort_by_blame(candidates);
  casework::Blame blame(network, seen.evidence, seen.complaint, posterior->log_evidence);
  std::vector<Suspect> leading;
  for (const Suspect& candidate : candidates) {
    if (leading.size() >= places && leading.back().blame >= candidate.blame) {
      break;  // nobody after this one can be more to blame
    }
    leading.push_back({candidate.item, blame.of({candidate.item})});
    sort_by_blame(leading);
    if (leading.size() > places) leading.pop_back();
  }
  return leading;
}

bool matches(const std::string& item, const std::vector<std::string>& expected) {
  return std::any_of(expected.begin(), expected.end(), [&](const std::string& wanted) {
    const bool open_ended = wanted.ends_with('@') || wanted.ends_with(':');
    const bool first_part = item.starts_with(wanted + '@');
    return item == wanted || first_part || (open_ended && item.starts_with(wanted));
  });
}

Score score(const Vignette& vignette, const diagnosis::Network& network,
            const std::vector<Suspect>& suspects) {
  Score result;
  for (std::size_t rank = 0; rank < suspects.size(); ++rank) {
    const std::string& item = network.items[suspects[rank].item].id;
    if (rank == 0) {
      result.top1 = matches(item, vignette.expect_top1);
      result.led_by_forbidden = matches(item, vignette.must_not_lead);
    }
    result.top3 = result.top3 || matches(item, vignette.expect_top3);
  }
  return result;
}

CompiledNetwork compile(const knowledge::KnowledgeBase& knowledge, const Vignette& vignette) {
  const auto* equipment = knowledge::find(knowledge.equipment, vignette.equipment);
  CHECK(equipment != nullptr);
  return diagnosis::compile_network(knowledge, *equipment, {vignette.year, year_now, {}});
}

}  // namespace dryout::vignettes
