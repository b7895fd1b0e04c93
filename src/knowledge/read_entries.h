// Reading one kind of entry from a document. Each function complains through the reader and returns
// what it could read; load.h decides what becomes of it.
#pragma once

#include "documents/reader.h"
#include "knowledge/knowledge_base.h"

namespace dryout::knowledge {

/// Years that sets and parts can be of.
inline constexpr documents::Range any_year{.min = 1900, .max = 2100};

/// The members that every entry has.
void read_head(const documents::Reader& reader, Entry& entry, bool with_title = true);
[[nodiscard]] Source read_source(const documents::Reader& reader);

[[nodiscard]] FaultMode read_mode(const documents::Reader& reader);
[[nodiscard]] Technology read_technology(const documents::Reader& reader);
[[nodiscard]] Ageing read_ageing(const documents::Reader& reader);
[[nodiscard]] EraVariant read_era(const documents::Reader& reader);
[[nodiscard]] Role read_role(const documents::Reader& reader);
[[nodiscard]] OtherCause read_cause(const documents::Reader& reader);
[[nodiscard]] Phenomenon read_phenomenon(const documents::Reader& reader);
[[nodiscard]] Link read_link(const documents::Reader& reader);
[[nodiscard]] Symptom read_symptom(const documents::Reader& reader);
[[nodiscard]] Caution read_caution(const documents::Reader& reader);
[[nodiscard]] CheckRule read_check(const documents::Reader& reader);
[[nodiscard]] Equipment read_equipment(const documents::Reader& reader);

}  // namespace dryout::knowledge
