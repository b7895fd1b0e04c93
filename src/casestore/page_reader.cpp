#include "casestore/page_reader.h"

#include <algorithm>
#include <array>
#include <bit>
#include <optional>
#include <utility>

namespace dryout::casestore {
namespace {

constexpr std::size_t header_size = 100;
constexpr unsigned char index_interior = 0x02;
constexpr unsigned char index_leaf = 0x0a;
constexpr unsigned char table_leaf = 0x0d;

unsigned byte_at(std::string_view bytes, std::size_t at) {
  return at < bytes.size() ? static_cast<unsigned char>(bytes[at]) : 0U;
}
std::uint32_t two_bytes(std::string_view bytes, std::size_t at) {
  return (byte_at(bytes, at) << 8U) | byte_at(bytes, at + 1);
}
std::uint32_t four_bytes(std::string_view bytes, std::size_t at) {
  return (two_bytes(bytes, at) << 16U) | two_bytes(bytes, at + 2);
}

/// A number of one to nine bytes; moves `at` behind it. Nothing where the bytes end.
std::optional<std::uint64_t> varint(std::string_view bytes, std::size_t& at) {
  std::uint64_t value = 0;
  for (int i = 0; i < 9; ++i) {
    if (at >= bytes.size()) {
      return {};
    }
    const unsigned byte = byte_at(bytes, at++);
    if (i == 8) {
      return (value << 8U) | byte;
    }
    value = (value << 7U) | (byte & 0x7fU);
    if ((byte & 0x80U) == 0) {
      return value;
    }
  }
  return value;
}

std::int64_t signed_integer(std::string_view bytes) {
  std::uint64_t value = bytes.empty() || (byte_at(bytes, 0) & 0x80U) == 0 ? 0 : ~std::uint64_t{0};
  for (std::size_t i = 0; i < bytes.size(); ++i) {
    value = (value << 8U) | byte_at(bytes, i);
  }
  return static_cast<std::int64_t>(value);
}

std::uint64_t size_of_type(std::uint64_t type) {
  constexpr std::array<std::uint64_t, 12> sizes{0, 1, 2, 3, 4, 6, 8, 8, 0, 0, 0, 0};
  return type < sizes.size() ? sizes[type] : (type - 12) / 2;
}

Column column_of(std::uint64_t type, std::string_view bytes) {
  constexpr std::uint64_t real_type = 7;
  constexpr std::uint64_t zero_type = 8;
  constexpr std::uint64_t one_type = 9;
  constexpr std::uint64_t first_sized = 12;
  if (type == 0) {
    return Null{};
  }
  if (type == real_type) {
    return std::bit_cast<double>(signed_integer(bytes));
  }
  if (type == zero_type || type == one_type) {
    return static_cast<std::int64_t>(type - zero_type);
  }
  if (type < first_sized) {
    return signed_integer(bytes);
  }
  return type % 2 == 0 ? Column(Blob{std::string(bytes)}) : Column(std::string(bytes));
}

/// Nothing where the bytes are no record.
std::optional<std::vector<Column>> columns_of(std::string_view payload) {
  constexpr std::size_t columns_max = 100;
  std::size_t at = 0;
  const auto header = varint(payload, at);
  if (!header || *header > payload.size()) {
    return {};
  }
  std::size_t body = *header;
  std::vector<Column> columns;
  while (at < *header && columns.size() < columns_max) {
    const auto type = varint(payload, at);
    if (!type || *type == 10 || *type == 11) {
      return {};
    }
    const std::uint64_t size = size_of_type(*type);
    if (size > payload.size() - std::min<std::uint64_t>(body, payload.size())) {
      return {};
    }
    columns.push_back(column_of(*type, payload.substr(body, size)));
    body += size;
  }
  return columns;
}

}  // namespace

PageReader::PageReader(std::string file, std::string log)
    : file_(std::move(file)), log_(std::move(log)) {
  read_header();
  read_log();
}

void PageReader::read_header() {
  constexpr std::size_t size_at = 16;
  constexpr std::size_t reserved_at = 20;
  constexpr std::uint32_t largest = 65536;
  std::uint32_t size = two_bytes(file_, size_at);
  size = size == 1 ? largest : size;
  // A header that turned must not hide the pages: this program writes pages of 4096 bytes.
  if (size >= 512 && std::has_single_bit(size) && file_.size() % size == 0) {
    page_size_ = size;
  }
  const std::size_t reserved = byte_at(file_, reserved_at);
  usable_ = page_size_ - (reserved <= 32 ? reserved : 0);
}

/// Frames as they follow each other, whether they were committed or not: a sealed step is one that
/// was written. Frames of an earlier turn of the log lie behind those of the present one.
void PageReader::read_log() {
  constexpr std::size_t log_header = 32;
  constexpr std::size_t frame_header = 24;
  constexpr std::size_t salt_at = 16;
  constexpr std::size_t frame_salt_at = 8;
  const std::string_view log = log_;
  for (std::size_t at = log_header; at + frame_header + page_size_ <= log.size();
       at += frame_header + page_size_) {
    const std::uint32_t number = four_bytes(log, at);
    const std::string_view bytes = log.substr(at + frame_header, page_size_);
    const bool present = log.substr(at + frame_salt_at, 8) == log.substr(salt_at, 8);
    if (!present) {
      older_.emplace_back(number, bytes);
      continue;
    }
    const auto [place, fresh] = newest_.emplace(number, bytes);
    if (!fresh) {
      older_.emplace_back(number, std::exchange(place->second, bytes));
    }
  }
}

std::string_view PageReader::page(std::uint32_t number) const {
  if (const auto logged = newest_.find(number); logged != newest_.end()) {
    return logged->second;
  }
  const std::size_t at = (static_cast<std::size_t>(number) - 1) * page_size_;
  return number == 0 || at >= file_.size() ? std::string_view()
                                           : std::string_view(file_).substr(at, page_size_);
}

bool PageReader::read_payload(std::string_view bytes, std::size_t at, std::uint64_t size,
                              bool table, std::string& payload) const {
  constexpr std::uint64_t payload_max = 64U << 20U;
  if (size > payload_max) {
    return false;
  }
  const std::uint64_t most = table ? usable_ - 35 : (usable_ - 12) * 64 / 255 - 23;
  const std::uint64_t least = (usable_ - 12) * 32 / 255 - 23;
  std::uint64_t local = size;
  if (size > most) {
    const std::uint64_t k = least + (size - least) % (usable_ - 4);
    local = k <= most ? k : least;
  }
  if (at + local > bytes.size()) {
    return false;
  }
  payload = bytes.substr(at, local);
  std::uint32_t next = size > local ? four_bytes(bytes, at + local) : 0;
  while (payload.size() < size) {
    const std::string_view overflow = page(next);
    if (overflow.size() < 5) {
      return false;
    }
    payload += overflow.substr(4, std::min<std::uint64_t>(usable_ - 4, size - payload.size()));
    next = four_bytes(overflow, 0);
  }
  return true;
}

void PageReader::visit_page(std::uint32_t number, std::string_view bytes,
                            const Visit& visit) const {
  const std::size_t head = number == 1 ? header_size : 0;
  const unsigned type = byte_at(bytes, head);
  const bool table = type == table_leaf;
  const bool interior = type == index_interior;
  if (!table && !interior && type != index_leaf) {
    return;
  }
  const std::size_t pointers = head + (interior ? 12U : 8U);
  const std::uint32_t cells = two_bytes(bytes, head + 3);
  for (std::uint32_t i = 0; i < cells && pointers + std::size_t{2} * i + 2 <= bytes.size(); ++i) {
    std::size_t at = two_bytes(bytes, pointers + std::size_t{2} * i) + (interior ? 4U : 0U);
    const auto size = varint(bytes, at);
    Record record;
    record.in_table = table;
    if (table) {
      record.rowid = static_cast<std::int64_t>(varint(bytes, at).value_or(0));
    }
    std::string payload;
    if (!size || !read_payload(bytes, at, *size, table, payload)) {
      continue;
    }
    if (auto columns = columns_of(payload)) {
      record.columns = std::move(*columns);
      visit(record);
    }
  }
}

/// Those that hold nothing any more, by the list of them (section 1.5); as far as it can be
/// followed.
std::set<std::uint32_t> PageReader::free_pages(std::uint32_t last) const {
  constexpr std::size_t first_trunk_at = 32;
  std::set<std::uint32_t> all;
  for (std::uint32_t trunk = four_bytes(page(1), first_trunk_at);
       trunk != 0 && trunk <= last && all.insert(trunk).second;) {
    const std::string_view bytes = page(trunk);
    const std::uint32_t leaves = four_bytes(bytes, 4);
    for (std::uint32_t i = 0; i < leaves && 8 + 4 * i + 4 <= bytes.size(); ++i) {
      const std::uint32_t leaf = four_bytes(bytes, 8 + 4 * std::size_t{i});
      if (leaf > 1 && leaf <= last) {
        all.insert(leaf);
      }
    }
    trunk = four_bytes(bytes, 0);
  }
  return all;
}

void PageReader::visit_records(const Visit& visit) const {
  auto last = static_cast<std::uint32_t>((file_.size() + page_size_ - 1) / page_size_);
  if (!newest_.empty()) {
    last = std::max(last, newest_.rbegin()->first);
  }
  constexpr std::uint32_t pages_max = 100'000'000;  // a number that turned in the log
  last = std::min(last, pages_max);
  const std::set<std::uint32_t> spare = free_pages(last);
  for (std::uint32_t number = 1; number <= last; ++number) {
    if (!spare.contains(number)) {
      visit_page(number, page(number), visit);
    }
  }
  for (const std::uint32_t number : spare) {
    visit_page(number, page(number), visit);
  }
  for (const auto& [number, bytes] : older_) {
    visit_page(number, bytes, visit);
  }
  for (const auto& [number, bytes] : newest_) {  // what they took the place of
    const std::size_t at = (static_cast<std::size_t>(number) - 1) * page_size_;
    if (number != 0 && at < file_.size()) {
      visit_page(number, std::string_view(file_).substr(at, page_size_), visit);
    }
  }
}

}  // namespace dryout::casestore
