// SPDX-License-Identifier: GPL-3.0-or-later
#include "paint/report_table.h"

#include <QFontMetricsF>
#include <algorithm>

#include "wording/sentences.h"

namespace ww::paint {

namespace {

constexpr double kBody = 9.5, kSmall = 8, kHead = 8;
constexpr double kPadX = 4 * kPt, kPadY = 3 * kPt, kTightPadY = 2 * kPt, kSmallPadY = 1 * kPt;
constexpr double kAfter = 8 * kPt;
constexpr double kMark = 10 * kPt, kMarkGap = 4 * kPt;
constexpr double kTagWidth = 24 * kPt, kTagHeight = 13 * kPt;

Severity shapeOf(checklist::Verdict verdict) {
  switch (verdict) {
    case checklist::Verdict::good: return Severity::right;
    case checklist::Verdict::again: return Severity::warn;
    case checklist::Verdict::fault: return Severity::fail;
    case checklist::Verdict::notJudged: return Severity::note;
    case checklist::Verdict::notMeasured: break;
  }
  return Severity::notMeasured;
}

Severity shapeOf(document::FunctionState state) {
  switch (state) {
    case document::FunctionState::works: return Severity::right;
    case document::FunctionState::worksWithLimits: return Severity::warn;
    case document::FunctionState::doesNotWork: return Severity::fail;
    case document::FunctionState::notTested: break;
  }
  return Severity::notMeasured;
}

std::optional<Severity> shapeOf(const document::CellContent& content) {
  if (const auto* mark = std::get_if<document::SeverityMark>(&content)) return paint::shapeOf(mark->severity);
  if (const auto* mark = std::get_if<document::VerdictMark>(&content)) return shapeOf(mark->verdict);
  if (const auto* mark = std::get_if<document::FunctionMark>(&content)) return shapeOf(mark->state);
  if (std::holds_alternative<document::OpenMark>(content)) return Severity::notMeasured;
  return std::nullopt;
}

/// What a row speaks of, as Area names it; empty when it is nothing a person could go to.
std::string subjectOf(const document::Row& row) {
  for (const document::Cell& cell : row.cells) {
    const auto* value = std::get_if<document::Value>(&cell.content);
    if (!value) continue;
    if (const auto* step = std::get_if<document::Instruction>(value)) return "step:" + step->step.key;
    if (const auto* title = std::get_if<document::FindingTitle>(value))
      return "finding:" + verify::keyOf(title->finding);
    if (const auto* text = std::get_if<document::FindingText>(value))
      return "finding:" + verify::keyOf(text->finding);
  }
  return {};
}

QString wordOf(const wording::Language& language, const document::CellContent& content,
               const wording::Context& context) {
  constexpr const char* kStates[] = {"works", "worksWithLimits", "notTested", "doesNotWork"};
  if (const auto* mark = std::get_if<document::SeverityMark>(&content))
    return wording::severityName(language, mark->severity);
  if (const auto* mark = std::get_if<document::VerdictMark>(&content))
    return wording::verdictName(language, mark->verdict);
  if (const auto* mark = std::get_if<document::FunctionMark>(&content))
    return wording::word(language, "function-state", kStates[size_t(mark->state)]);
  if (const auto* mark = std::get_if<document::OpenMark>(&content))
    return wording::text(language, mark->text, context);
  if (const auto* value = std::get_if<document::Value>(&content))
    return wording::text(language, *value, context);
  if (const auto* tag = std::get_if<document::Tag>(&content))
    return QString::fromStdString(sheet::print(tag->colour));
  return {};
}

double spanned(const std::vector<double>& columns, size_t from, int span) {
  double wide = 0;
  for (size_t i = from; i < from + size_t(span) && i < columns.size(); ++i) wide += columns[i];
  return wide;
}

}  // namespace

std::vector<double> TablePainter::widths(const document::Table& table) const {
  double shares = 0;
  for (const auto& column : table.columns) shares += column.share;
  std::vector<double> result;
  for (const auto& column : table.columns) result.push_back(flow_.width() * column.share / shares);
  return result;
}

TablePainter::Drawn TablePainter::drawn(const document::Cell& cell, bool small) const {
  Drawn d{wordOf(flow_.language(), cell.content, context_), paperFont(small ? kSmall : kBody),
          flow_.theme().ink, 0};
  if (const auto shape = shapeOf(cell.content)) {
    d.font = paperFont(kBody, true);
    d.colour = flow_.theme().severity(*shape).text;
    d.indent = kMark + kMarkGap;
  }
  if (cell.emphasis == document::Emphasis::strong) d.font.setBold(true);
  if (cell.emphasis == document::Emphasis::quiet) d.colour = flow_.theme().ink2;
  if (cell.emphasis == document::Emphasis::quiet && !small) d.font = paperFont(kSmall);
  if (cell.emphasis == document::Emphasis::struck) d.font.setStrikeOut(true);
  return d;
}

double TablePainter::rowHeight(const document::Row& row, const std::vector<double>& columns) const {
  double height = QFontMetricsF(paperFont(row.small ? kSmall : kBody), flow_.painterDevice()).height();
  for (size_t i = 0; i < row.cells.size() && i < columns.size(); i += size_t(row.cells[i].span)) {
    const Drawn d = drawn(row.cells[i], row.small);
    const double wide = spanned(columns, i, row.cells[i].span) - 2 * kPadX - d.indent;
    height = std::max(height, flow_.textHeight(d.text, d.font, wide));
  }
  return height + 2 * padding(row);
}

double TablePainter::headHeight(const document::Table& table, const std::vector<double>& columns) const {
  double height = 0;
  for (size_t i = 0; i < columns.size(); ++i)
    height =
        std::max(height, flow_.textHeight(wording::text(flow_.language(), table.columns[i].title, context_),
                                          paperFont(kHead, true), columns[i] - 2 * kPadX));
  return height + 2 * kPadY;
}

double TablePainter::padding(const document::Row& row) const {
  return row.small ? kSmallPadY : tight_ ? kTightPadY : kPadY;
}

double TablePainter::height(const document::Table& table) const {
  const auto columns = widths(table);
  double height = headHeight(table, columns) + kAfter;
  for (const auto& row : table.rows) height += rowHeight(row, columns);
  return height;
}

double TablePainter::openingHeight(const document::Table& table) const {
  const auto columns = widths(table);
  double height = headHeight(table, columns);
  for (size_t i = 0; i < table.rows.size() && i < 2; ++i) height += rowHeight(table.rows[i], columns);
  return height;
}

void TablePainter::line(const QColor& colour, double width) {
  flow_.painter().setPen(QPen(colour, width));
  flow_.painter().drawLine(QPointF(flow_.left(), flow_.y()),
                           QPointF(flow_.left() + flow_.width(), flow_.y()));
}

void TablePainter::paintHead(const document::Table& table, const std::vector<double>& columns) {
  const double height = headHeight(table, columns);
  double x = flow_.left();
  for (size_t i = 0; i < columns.size(); ++i) {
    const int align = table.columns[i].align == document::Align::left ? Qt::AlignLeft : Qt::AlignRight;
    flow_.drawText(QRectF(x + kPadX, flow_.y() + kPadY, columns[i] - 2 * kPadX, height - 2 * kPadY),
                   wording::text(flow_.language(), table.columns[i].title, context_), paperFont(kHead, true),
                   flow_.theme().ink2, align);
    x += columns[i];
  }
  flow_.advance(height);
  line(flow_.theme().ink, 0.75 * kPt);
}

void TablePainter::paintMark(const document::Cell& cell, const QPointF& at) {
  QPainter& painter = flow_.painter();
  const auto shape = shapeOf(cell.content);
  if (!shape) return;
  painter.save();
  painter.translate(at);
  painter.scale(kMark / 16, kMark / 16);  // the shapes are drawn for a box of 16 px
  paintSeverity(painter, *shape, QRectF(0, 0, 16, 16), flow_.theme());
  painter.restore();
}

void TablePainter::paintRow(const document::Table& table, const document::Row& row,
                            const std::vector<double>& columns) {
  const double height = rowHeight(row, columns);
  const double pad = padding(row);
  double x = flow_.left();
  for (size_t i = 0; i < row.cells.size() && i < columns.size(); i += size_t(row.cells[i].span)) {
    const Drawn d = drawn(row.cells[i], row.small);
    const double wide = spanned(columns, i, row.cells[i].span);
    const QRectF box(x + kPadX + d.indent, flow_.y() + pad, wide - 2 * kPadX - d.indent, height - 2 * pad);
    if (std::holds_alternative<document::Tag>(row.cells[i].content)) {
      const double tag = std::max(
          kTagWidth,
          QFontMetricsF(paperFont(kSmall, true), flow_.painterDevice()).horizontalAdvance(d.text) + 8 * kPt);
      const QRectF flag(box.left(), flow_.y() + (height - kTagHeight) / 2, tag, kTagHeight);
      flow_.painter().setPen(QPen(flow_.theme().casing, 0.75 * kPt));
      flow_.painter().setBrush(flow_.theme().panel);
      flow_.painter().drawRoundedRect(flag, kTagHeight / 2, kTagHeight / 2);
      flow_.drawText(flag, d.text, paperFont(kSmall, true), flow_.theme().ink, Qt::AlignCenter);
    } else {
      const double lineHeight = QFontMetricsF(d.font, flow_.painterDevice()).height();
      paintMark(row.cells[i], {x + kPadX, flow_.y() + pad + (lineHeight - kMark) / 2});
      const int align = table.columns[i].align == document::Align::left ? Qt::AlignLeft : Qt::AlignRight;
      flow_.drawText(box, d.text, d.font, d.colour, align);
    }
    x += wide;
  }
  if (const std::string what = subjectOf(row); !what.empty())
    flow_.note(what, QRectF(flow_.left(), flow_.y(), flow_.width(), height));
  flow_.advance(height);
}

void TablePainter::paint(const document::Table& table) {
  const auto columns = widths(table);
  flow_.need(openingHeight(table));
  paintHead(table, columns);
  for (size_t i = 0; i < table.rows.size(); ++i) {
    // Small rows belong to the one above.
    double height = rowHeight(table.rows[i], columns);
    size_t next = i + 1;
    if (!table.rows[i].small)
      for (; next < table.rows.size() && table.rows[next].small; ++next)
        height += rowHeight(table.rows[next], columns);
    if (!table.rows[i].small && flow_.need(height)) paintHead(table, columns);
    paintRow(table, table.rows[i], columns);
    const bool belongs = i + 1 < table.rows.size() && table.rows[i + 1].small;
    if (!belongs) line(flow_.theme().hairline, 0.5 * kPt);
  }
  flow_.advance(kAfter);
}

}  // namespace ww::paint
