// SPDX-License-Identifier: GPL-3.0-or-later
// Room document: the report of a job as a tree of sections, tables and
// sentences by key. Everything in it is computed from the job, its findings,
// steps and solved calls. Must not know a language, a font or a page.
#pragma once

#include <string>
#include <variant>
#include <vector>

#include "document/value.h"

namespace ww::document {

enum class Align { left, right, decimal };

/// `share`: part of the table's width, in any common measure.
struct Column {
  Phrase title;  ///< empty key: no head
  double share = 1;
  Align align = Align::left;
};

struct Blank {};
/// A conductor's colour flag.
struct Tag {
  sheet::Colour colour;
};
/// Shape and word of a severity.
struct SeverityMark {
  verify::Severity severity = verify::Severity::note;
};
/// Shape and word of a verdict on a reading.
struct VerdictMark {
  checklist::Verdict verdict = checklist::Verdict::notMeasured;
};
/// What the owner is told about a function.
enum class FunctionState { works, worksWithLimits, notTested, doesNotWork };
struct FunctionMark {
  FunctionState state = FunctionState::notTested;
};
/// A point that is open without being a finding.
struct OpenMark {
  Value text;
};

using CellContent = std::variant<Blank, Value, Tag, SeverityMark, VerdictMark, FunctionMark, OpenMark>;

enum class Emphasis { plain, strong, quiet, struck };

/// `span`: columns it takes; the cells that it covers stand blank in the row.
struct Cell {
  CellContent content;
  Emphasis emphasis = Emphasis::plain;
  int span = 1;
};

/// A small row stands under the one above it: retakes, struck readings, where an end lay before.
struct Row {
  std::vector<Cell> cells;
  bool small = false;
};

struct Table {
  std::vector<Column> columns;
  std::vector<Row> rows;
};

/// Never stands alone at the foot of a page.
struct Heading {
  Value text;
};

struct Paragraph {
  Value text;
  Emphasis emphasis = Emphasis::plain;
};

/// The verdict of the owner's page: whole sentences, one after the other.
struct VerdictBox {
  std::vector<Phrase> sentences;
  FunctionState worst = FunctionState::notTested;
};

/// Up to three figures that are seen first.
struct KeyFigure {
  Phrase label;
  Value figure;
  Value remark;
};
struct KeyFigures {
  std::vector<KeyFigure> figures;
};

/// The diagram of the sheet the report speaks of, with the sentence below it.
struct DiagramPage {
  std::vector<Value> legend;
  std::vector<sheet::ConductorId> foundOtherwise;  ///< zigzag under their flags
};

/// How often a stage may start, over load.
struct CycleCurve {
  std::string duty;         ///< "compressor1"
  double most = 0;          ///< starts an hour at half load, as set
  quantity::Seconds least;  ///< off time that holds it back; 0: none
};
struct CycleCurves {
  std::vector<CycleCurve> curves;
};

struct SignatureLine {
  Phrase role;
  std::string name, at, form;  ///< empty name: to be signed on paper
};
struct SignatureBlock {
  std::vector<SignatureLine> lines;
};

using Node =
    std::variant<Heading, Paragraph, Table, VerdictBox, KeyFigures, DiagramPage, CycleCurves, SignatureBlock>;

/// Where a section starts: below the one before, on a page of its own, or there only when the rest of the
/// page does not hold all of it.
enum class Start { below, page, whole };

struct Section {
  std::string id;  ///< "owner", "equipment", "wiring", ...
  int number = 0;
  Value title;
  std::vector<Value> subtitle;  ///< set in one line with points between
  Start start = Start::below;
  bool landscape = false;
  std::vector<Node> nodes;
  Phrase
      contents;  ///< what a list of contents calls it when its title does not say it; then no number is set
};

/// What stands on every page.
struct RunningHead {
  std::string company, phone, address, visit;  ///< visit: ISO day
  std::string jobNumber, hash, version;
  std::string dated;  ///< ISO time of the newest fact in the job; the file's own date
};

struct Report {
  RunningHead head;
  std::vector<Section> sections;
};

}  // namespace ww::document
