// SPDX-License-Identifier: GPL-3.0-or-later
#include "paint/report_painter.h"

#include <QFontMetricsF>
#include <algorithm>

#include "paint/cycle_painter.h"
#include "paint/diagram_painter.h"
#include "paint/pages.h"
#include "paint/report_table.h"
#include "wording/names.h"
#include "wording/sentences.h"

namespace ww::paint {

namespace {

constexpr double kTitle = 20, kSectionTitle = 14, kHeading = 11, kBody = 9.5, kSmall = 8;
constexpr double kAbove = 8 * kPt, kTightAbove = 5 * kPt, kBelow = 2 * kPt;  ///< of a heading
constexpr double kAfterText = 4 * kPt;
constexpr double kCurve = 130 * kPt;  ///< height of a curve with its title
constexpr double kSparse = 0.2;       ///< a last page filled less than this is a spill

/// How the space is used. `lastOnItsPage`: the last section starts a page, so that no few lines of it spill.
struct Fit {
  bool tight = false, lastOnItsPage = false;
};

class ReportPainter {
 public:
  ReportPainter(PageFlow& flow, const sheet::Sheet& sheet, const equipment::Library& library, const Fit& fit)
      : flow_(flow),
        sheet_(sheet),
        library_(library),
        context_{sheet, library},
        fit_(fit),
        tables_(flow, context_, fit.tight) {}

  std::vector<Bookmark> paint(const document::Report& report) {
    bool landscapeBefore = false;
    for (const document::Section& section : report.sections) {
      const bool turn = section.landscape != landscapeBefore;
      const bool last = fit_.lastOnItsPage && &section == &report.sections.back();
      const bool page = section.start == document::Start::page || last || turn;
      if (flow_.page() < 0 || page)
        flow_.startPage(section.landscape);
      else
        flow_.advance(14 * kPt);
      if (section.start == document::Start::whole) flow_.need(heightOf(section));
      landscapeBefore = section.landscape;
      sectionTitle(section);
      for (size_t i = 0; i < section.nodes.size(); ++i) {
        following_ = i + 1 < section.nodes.size() ? &section.nodes[i + 1] : nullptr;
        std::visit(*this, section.nodes[i]);
      }
    }
    return std::move(bookmarks_);
  }

  void operator()(const document::Heading& heading) {
    const QFont face = paperFont(kHeading, true);
    const QString text = say(heading.text);
    const double height = flow_.textHeight(text, face, flow_.width());
    const double above = fit_.tight ? kTightAbove : kAbove;
    double keep = 4 * kSmall * kPt;
    if (const auto* table = following_ != nullptr ? std::get_if<document::Table>(following_) : nullptr)
      keep = tables_.openingHeight(*table);
    flow_.need(height + above + kBelow + keep);
    flow_.advance(above);
    flow_.drawText(QRectF(flow_.left(), flow_.y(), flow_.width(), height), text, face, flow_.theme().ink);
    flow_.advance(height + kBelow);
  }

  void operator()(const document::Paragraph& paragraph) {
    const bool quiet = paragraph.emphasis == document::Emphasis::quiet;
    const QFont face = faceOf(paragraph);
    const QString text = say(paragraph.text);
    const double height = flow_.textHeight(text, face, flow_.width());
    flow_.need(height);
    flow_.drawText(QRectF(flow_.left(), flow_.y(), flow_.width(), height), text, face,
                   quiet ? flow_.theme().ink2 : flow_.theme().ink);
    flow_.advance(height + kAfterText);
  }

  void operator()(const document::Table& table) { tables_.paint(table); }

  void operator()(const document::VerdictBox& box) {
    QStringList sentences;
    for (const auto& sentence : box.sentences) sentences << say(sentence);
    const QFont face = paperFont(15, true);
    const double pad = 12 * kPt;
    const double height = flow_.textHeight(sentences.join(u' '), face, flow_.width() - 2 * pad) + 2 * pad;
    flow_.need(height);
    flow_.advance(6 * kPt);
    flow_.painter().setPen(QPen(flow_.theme().ink, 1.5 * kPt));
    flow_.painter().setBrush(flow_.theme().panel);
    const QRectF frame(flow_.left(), flow_.y(), flow_.width(), height);
    flow_.painter().drawRoundedRect(frame.adjusted(7, 7, -7, -7), 3 * kPt, 3 * kPt);
    flow_.drawText(frame.adjusted(pad, pad, -pad, -pad), sentences.join(u' '), face, flow_.theme().ink);
    flow_.advance(height + 10 * kPt);
  }

  void operator()(const document::KeyFigures& key) {
    if (key.figures.empty()) return;
    const double gap = 10 * kPt;
    const double wide = (flow_.width() - gap * double(key.figures.size() - 1)) / double(key.figures.size());
    const double height = 52 * kPt;
    flow_.need(height);
    for (size_t i = 0; i < key.figures.size(); ++i) {
      const QRectF box(flow_.left() + double(i) * (wide + gap), flow_.y(), wide, height);
      const auto row = [&](double top, double points, bool bold, const QString& text, const QColor& colour) {
        flow_.drawText(QRectF(box.left(), box.top() + top * kPt, box.width(), points * 1.5 * kPt), text,
                       paperFont(points, bold), colour);
      };
      row(0, kSmall, false, say(key.figures[i].label), flow_.theme().ink2);
      row(12, 18, true, say(key.figures[i].figure), flow_.theme().ink);
      row(38, kSmall, false, say(key.figures[i].remark), flow_.theme().ink2);
    }
    flow_.advance(height + 4 * kPt);
  }

  void operator()(const document::DiagramPage& page) {
    drawing::LayoutOptions options;
    options.language = flow_.language().code().toStdString();
    options.lengths =
        flow_.language().measuresInFeet() ? drawing::LengthUnit::feet : drawing::LengthUnit::metres;
    const auto diagram = drawing::layout(sheet_, library_, textMeasure(), options);
    DiagramState state;
    state.foundOtherwise.insert(page.foundOtherwise.begin(), page.foundOtherwise.end());
    QStringList lines;
    for (const auto& line : page.legend) lines << say(line);
    const QFont face = paperFont(kBody);
    const double legend = flow_.textHeight(lines.join(u' '), face, flow_.width());
    const QRectF bounds = pictureBounds(diagram, nullptr);
    const QRectF space(flow_.left(), flow_.y(), flow_.width(), flow_.room() - legend - 12 * kPt);
    const double scale =
        std::min({space.width() / bounds.width(), space.height() / bounds.height(), 1.25 * kScreenPx});
    QPainter& painter = flow_.painter();
    painter.save();
    painter.translate(space.left() + (space.width() - bounds.width() * scale) / 2, space.top());
    painter.scale(scale, scale);
    painter.translate(-bounds.topLeft());
    paintDiagram(painter, diagram, nullptr, flow_.theme(), state);
    painter.restore();
    flow_.advance(bounds.height() * scale + 12 * kPt);
    flow_.drawText(QRectF(flow_.left(), flow_.y(), flow_.width(), legend), lines.join(u' '), face,
                   flow_.theme().ink2);
    flow_.advance(legend);
  }

  /// Two beside each other.
  void operator()(const document::CycleCurves& cycles) {
    const double gap = 24 * kPt, wide = (flow_.width() - gap) / 2;
    for (size_t i = 0; i < cycles.curves.size(); i += 2) {
      flow_.need(kCurve);
      for (size_t k = i; k < std::min(i + 2, cycles.curves.size()); ++k)
        curve(cycles.curves[k], QRectF(flow_.left() + double(k - i) * (wide + gap), flow_.y(), wide, kCurve));
      flow_.advance(kCurve + 4 * kPt);
    }
  }

  void operator()(const document::SignatureBlock& block) {
    const double gap = 24 * kPt;
    const double wide = (flow_.width() - gap) / 2;
    const double height = 62 * kPt;
    flow_.need(height);
    flow_.advance(32 * kPt);
    for (size_t i = 0; i < block.lines.size() && i < 2; ++i) {
      const auto& line = block.lines[i];
      const double x = flow_.left() + double(i) * (wide + gap);
      flow_.painter().setPen(QPen(flow_.theme().ink, 0.75 * kPt));
      flow_.painter().drawLine(QPointF(x, flow_.y()), QPointF(x + wide, flow_.y()));
      QString text = line.name.empty() ? flow_.language().sentence("report.sign-here")
                                       : QString::fromStdString(line.name);
      text += QStringLiteral(", ") + say(line.role);
      QString below;
      if (!line.name.empty())
        below = flow_.language().moment(line.at) + QStringLiteral(" · ") +
                wording::word(flow_.language(), "form", line.form);
      flow_.drawText(QRectF(x, flow_.y() + 4 * kPt, wide, 13 * kPt), text, paperFont(kBody),
                     flow_.theme().ink);
      flow_.drawText(QRectF(x, flow_.y() + 17 * kPt, wide, 12 * kPt), below, paperFont(kSmall),
                     flow_.theme().ink2);
    }
    flow_.advance(30 * kPt);
  }

 private:
  QString say(const document::Value& value) const { return wording::text(flow_.language(), value, context_); }
  QString say(const document::Phrase& phrase) const { return say(document::Value(phrase)); }

  static QFont faceOf(const document::Paragraph& paragraph) {
    return paperFont(paragraph.emphasis == document::Emphasis::quiet ? kSmall : kBody,
                     paragraph.emphasis == document::Emphasis::strong);
  }

  void curve(const document::CycleCurve& curve, const QRectF& box) {
    const double title = 14 * kPt;
    flow_.drawText(QRectF(box.left(), box.top(), box.width(), title),
                   wording::dutyName(flow_.language(), curve.duty), paperFont(kSmall, true),
                   flow_.theme().ink);
    QPainter& painter = flow_.painter();
    painter.save();
    painter.translate(box.left(), box.top() + title);
    painter.scale(kScreenPx, kScreenPx);
    paintCycles(painter, QRectF(0, 0, box.width() / kScreenPx, (box.height() - title) / kScreenPx),
                cyclePicture(flow_.language(), curve.most, curve.least), flow_.theme());
    painter.restore();
  }

  double heightOf(const document::Section& section) const {
    double height = 60 * kPt;  // of the title
    for (const auto& node : section.nodes) {
      if (const auto* heading = std::get_if<document::Heading>(&node))
        height +=
            kAbove + kBelow + flow_.textHeight(say(heading->text), paperFont(kHeading, true), flow_.width());
      if (const auto* paragraph = std::get_if<document::Paragraph>(&node))
        height += kAfterText + flow_.textHeight(say(paragraph->text), faceOf(*paragraph), flow_.width());
      if (const auto* table = std::get_if<document::Table>(&node)) height += tables_.height(*table);
      if (const auto* cycles = std::get_if<document::CycleCurves>(&node))
        height += double((cycles->curves.size() + 1) / 2) * (kCurve + 4 * kPt);
    }
    return height;
  }

  void sectionTitle(const document::Section& section) {
    const bool owner = !section.contents.key.empty();
    const QString number = flow_.language().number(section.number, 0) + QStringLiteral("  ");
    const QString title = owner ? say(section.title) : number + say(section.title);
    QStringList parts;
    for (const auto& part : section.subtitle) parts << say(part);
    const QString subtitle = parts.join(QStringLiteral(" · "));
    const QFont face = paperFont(owner ? kTitle : kSectionTitle, true);
    const double height = flow_.textHeight(title, face, flow_.width());
    const double second = flow_.textHeight(subtitle, paperFont(kBody), flow_.width());
    flow_.need(height + second + 80 * kPt);
    flow_.note("section:" + section.id,
               QRectF(flow_.left(), flow_.y(), flow_.width(), flow_.body().bottom() - flow_.y()));
    bookmarks_.push_back({owner ? number + say(section.contents) : title, flow_.page()});
    flow_.drawText(QRectF(flow_.left(), flow_.y(), flow_.width(), height), title, face, flow_.theme().ink);
    flow_.advance(height + 1 * kPt);
    flow_.drawText(QRectF(flow_.left(), flow_.y(), flow_.width(), second), subtitle, paperFont(kBody),
                   flow_.theme().ink2);
    flow_.advance(second + 6 * kPt);
  }

  PageFlow& flow_;
  const sheet::Sheet& sheet_;
  const equipment::Library& library_;
  wording::Context context_;
  Fit fit_;
  TablePainter tables_;
  std::vector<Bookmark> bookmarks_;
  const document::Node* following_ = nullptr;
};

struct Pass {
  PaintedReport painted;
  double lastFill = 1;  ///< share of the last page that is used
  int ownersPages = 1;  ///< the first section's
  bool good() const { return ownersPages <= 1 && (painted.pages == 1 || lastFill >= kSparse); }
};

class Passes {
 public:
  Passes(const document::Report& report, const sheet::Sheet& sheet, const equipment::Library& library,
         const wording::Language& language, PaperSize paper)
      : report_(report), sheet_(sheet), library_(library), language_(language), paper_(paper) {}

  /// Paints with the number of pages that the feet tell.
  Pass paint(Pages& pages, const Fit& fit, int count) const {
    PageFlow flow(pages, report_.head, language_, paper_, count);
    Pass pass;
    pass.painted.bookmarks = ReportPainter(flow, sheet_, library_, fit).paint(report_);
    pass.painted.areas = flow.areas();
    pass.painted.pages = flow.page() + 1;
    pass.lastFill = 1 - flow.room() / flow.body().height();
    if (pass.painted.bookmarks.size() > 1) pass.ownersPages = pass.painted.bookmarks[1].page;
    flow.finish();
    return pass;
  }

  /// The first way of using the space that leaves no spill; the loose one when none does.
  std::pair<Fit, int> plan() const {
    constexpr Fit kWays[] = {{false, false}, {true, false}, {false, true}, {true, true}};
    std::pair<Fit, int> chosen;
    for (const Fit& way : kWays) {
      PicturePages pictures;
      const Pass pass = paint(pictures, way, 0);
      if (chosen.second == 0 || pass.good()) chosen = {way, pass.painted.pages};
      if (pass.good()) break;
    }
    return chosen;
  }

 private:
  const document::Report& report_;
  const sheet::Sheet& sheet_;
  const equipment::Library& library_;
  const wording::Language& language_;
  PaperSize paper_;
};

}  // namespace

PaintedReport paintReport(Pages& pages, const document::Report& report, const sheet::Sheet& sheet,
                          const equipment::Library& library, const wording::Language& language,
                          PaperSize paper) {
  const Passes passes(report, sheet, library, language, paper);
  const auto [fit, count] = passes.plan();
  return passes.paint(pages, fit, count).painted;
}

}  // namespace ww::paint
