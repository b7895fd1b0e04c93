#include "complaints/complaint_reader.h"

#include <algorithm>
#include <cmath>
#include <set>

#include "complaints/equipment_names.h"
#include "complaints/phrase_index.h"
#include "complaints/understanding.h"

namespace dryout::complaints {
namespace {

constexpr double least_fit = 0.10;          ///< below this nothing is told
constexpr double least_share = 0.25;        ///< of the best: what stands further down is noise
constexpr double least_elsewhere = 0.45;    ///< sending an owner away asks for more
constexpr double elsewhere_share = 0.80;    ///< of the best symptom
constexpr double not_of_this_kind = 0.2;    ///< a symptom the equipment can't have
constexpr double not_of_likely_kind = 0.8;  ///< ... that the likely equipment can't have
constexpr double common_most = 0.06;        ///< between two that fit alike the commoner leads
constexpr double least_equipment = 0.2;
constexpr double sure_fit = 0.5;  ///< of a symptom that tells the kind by itself
constexpr double title_worth = 0.95;
constexpr std::size_t equipment_most = 6;

/// By the logarithm of the notes that fall to it; 1 for the class that is brought most.
double commonness_of(const Vocabulary& vocabulary, const std::string& symptom) {
  double most = 0.0;
  double notes = 0.0;
  for (const BroughtOften& often : vocabulary.often) {
    most = std::max(most, often.notes);
    if (std::find(often.symptoms.begin(), often.symptoms.end(), symptom) != often.symptoms.end()) {
      notes += often.notes / static_cast<double>(often.symptoms.size());
    }
  }
  return most <= 0.0 ? 0.0 : std::min(1.0, std::log1p(notes) / std::log1p(most));
}

}  // namespace

struct ComplaintReader::Index {
  explicit Index(const Vocabulary& vocabulary) : understanding(vocabulary) {}

  struct Symptom {
    std::string id, title;
    double commonness;                ///< 0 to 1, by how often owners bring it
    std::set<std::string> equipment;  ///< that can have it
  };
  struct Kind {
    std::string id, title;
    bool any_symptom;  ///< names none, so it can have all
  };
  Understanding understanding;
  PhraseIndex phrases;
  std::vector<Symptom> symptoms;
  std::vector<Elsewhere> elsewhere;
  std::vector<Kind> kinds;
  std::unique_ptr<EquipmentNames> names;

  [[nodiscard]] bool can_have(std::size_t kind, const Symptom& symptom) const {
    return kinds[kind].any_symptom || symptom.equipment.contains(kinds[kind].id);
  }
  [[nodiscard]] std::vector<HeardEquipment> equipment(const std::vector<double>& fits) const;
  /// The kinds that can have a symptom which few can have.
  [[nodiscard]] std::vector<double> kinds_with(const HeardSymptom& heard,
                                               std::vector<double> years) const;
  [[nodiscard]] double kind_factor(const Symptom& symptom, const std::vector<double>& named,
                                   const std::string& given) const;
};

std::vector<HeardEquipment> ComplaintReader::Index::equipment(
    const std::vector<double>& fits) const {
  std::vector<HeardEquipment> heard;
  for (std::size_t i = 0; i < kinds.size(); ++i) {
    if (fits[i] >= least_equipment) {
      heard.push_back({kinds[i].id, kinds[i].title, fits[i]});
    }
  }
  std::stable_sort(
      heard.begin(), heard.end(),
      [](const HeardEquipment& a, const HeardEquipment& b) { return a.score > b.score; });
  heard.resize(std::min(heard.size(), equipment_most));
  return heard;
}

std::vector<double> ComplaintReader::Index::kinds_with(const HeardSymptom& heard,
                                                       std::vector<double> years) const {
  const auto symptom = std::find_if(symptoms.begin(), symptoms.end(),
                                    [&](const Symptom& each) { return each.id == heard.id; });
  const bool few = symptom->equipment.size() <= equipment_most;
  for (std::size_t i = 0; i < kinds.size(); ++i) {
    const bool able = few && heard.score >= sure_fit && symptom->equipment.contains(kinds[i].id);
    years[i] *= able ? heard.score / 2 : 0.0;
  }
  return years;
}

double ComplaintReader::Index::kind_factor(const Symptom& symptom, const std::vector<double>& named,
                                           const std::string& given) const {
  double best = 0.0;
  double able = 0.0;
  for (std::size_t i = 0; i < kinds.size(); ++i) {
    if (!given.empty() && kinds[i].id == given) {
      return can_have(i, symptom) ? 1.0 : not_of_this_kind;
    }
    best = std::max(best, named[i]);
    able = can_have(i, symptom) ? std::max(able, named[i]) : able;
  }
  return best <= 0.0 ? 1.0 : not_of_likely_kind + (1.0 - not_of_likely_kind) * able / best;
}

ComplaintReader::ComplaintReader(const knowledge::KnowledgeBase& knowledge,
                                 const Vocabulary& vocabulary) {
  auto index = std::make_unique<Index>(vocabulary);
  const auto learn = [&](const std::vector<std::string>& phrases) {
    for (const std::string& phrase : phrases) {
      index->understanding.learn_words(phrase);
    }
  };
  for (const knowledge::Symptom& symptom : knowledge.symptoms) {
    learn({symptom.title});
    learn(symptom.owner_words);
    learn(symptom.said_as);
  }
  for (const Remembered& each : vocabulary.remembered) {
    learn({each.said});
  }
  for (const Elsewhere& each : vocabulary.elsewhere) {
    learn(each.said_as);
  }
  for (const knowledge::Equipment& equipment : knowledge.equipment) {
    learn({equipment.title});
    learn(equipment.said_as);
    index->kinds.push_back({equipment.id, equipment.title, equipment.symptoms.empty()});
  }
  const auto add = [&](const std::vector<std::string>& phrases, double worth) {
    for (const std::string& phrase : phrases) {
      index->phrases.add_phrase(index->understanding.of(phrase), worth);
    }
  };
  for (const knowledge::Symptom& symptom : knowledge.symptoms) {
    index->phrases.begin_entry();
    add({symptom.title}, title_worth);
    add(symptom.owner_words, 1.0);
    add(symptom.said_as, 1.0);
    for (const Remembered& each : vocabulary.remembered) {
      if (each.symptom == symptom.id) {
        add({each.said}, 1.0);
      }
    }
    std::set<std::string> able;
    for (const knowledge::Equipment& equipment : knowledge.equipment) {
      const auto& can = equipment.symptoms;
      if (std::find(can.begin(), can.end(), symptom.id) != can.end()) {
        able.insert(equipment.id);
      }
    }
    index->symptoms.push_back(
        {symptom.id, symptom.title, commonness_of(vocabulary, symptom.id), std::move(able)});
  }
  for (const Elsewhere& each : vocabulary.elsewhere) {
    index->phrases.begin_entry();
    add({each.title}, title_worth);
    add(each.said_as, 1.0);
    index->elsewhere.push_back(each);
  }
  index->phrases.weigh();
  index->names = std::make_unique<EquipmentNames>(knowledge, index->understanding);
  index_ = std::move(index);
}

ComplaintReader::~ComplaintReader() = default;
ComplaintReader::ComplaintReader(ComplaintReader&&) noexcept = default;
ComplaintReader& ComplaintReader::operator=(ComplaintReader&&) noexcept = default;

Heard ComplaintReader::read(std::string_view said, const Beside& beside) const {
  const Index& index = *index_;
  const Understood understood = index.understanding.of(said);
  const std::vector<double> fits = index.phrases.fits(understood);
  const std::vector<double> named =
      index.names->fits(index.understanding.stems_of(said), beside.year);
  Heard heard;
  double best = 0.0;
  for (std::size_t i = 0; i < index.symptoms.size(); ++i) {
    const Index::Symptom& symptom = index.symptoms[i];
    if (fits[i] <= 0.0) {
      continue;
    }
    const double common = common_most * symptom.commonness;
    const double fit = (fits[i] * (1.0 - common_most) + common) *
                       index.kind_factor(symptom, named, beside.equipment);
    best = std::max(best, fit);
    heard.symptoms.push_back({symptom.id, symptom.title, fit, understood.where});
  }
  std::erase_if(heard.symptoms, [&](const HeardSymptom& symptom) {
    return symptom.score < std::max(least_fit, best * least_share);
  });
  std::stable_sort(heard.symptoms.begin(), heard.symptoms.end(),
                   [](const HeardSymptom& a, const HeardSymptom& b) { return a.score > b.score; });
  for (std::size_t i = 0; i < index.elsewhere.size(); ++i) {
    const double fit = fits[index.symptoms.size() + i];
    if (fit >= least_elsewhere && fit >= best * elsewhere_share) {
      const Elsewhere& each = index.elsewhere[i];
      heard.elsewhere.push_back({each.id, each.title, each.advice, fit});
    }
  }
  std::stable_sort(
      heard.elsewhere.begin(), heard.elsewhere.end(),
      [](const HeardElsewhere& a, const HeardElsewhere& b) { return a.score > b.score; });
  heard.equipment = index.equipment(named);
  if (heard.equipment.empty() && !heard.symptoms.empty()) {
    heard.equipment = index.equipment(
        index.kinds_with(heard.symptoms.front(), index.names->years_fit(beside.year)));
  }
  return heard;
}

}  // namespace dryout::complaints
