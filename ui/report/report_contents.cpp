// SPDX-License-Identifier: GPL-3.0-or-later
#include <QLabel>
#include <QListWidget>
#include <QSignalBlocker>
#include <algorithm>

#include "report/report_place.h"
#include "wording/sentences.h"

namespace ww::report {

namespace {

constexpr int kContentsRow = 32, kId = Qt::UserRole;

QString q(const std::string& text) { return QString::fromStdString(text); }

}  // namespace

/// The list's current part is one that stands on this page: it stays when it does or was just left out, else
/// the first that begins here, else the last before.
void ReportPlace::markPart() {
  const auto idAt = [this](int row) { return contents_->item(row)->data(kId).toString().toStdString(); };
  const QListWidgetItem* current = contents_->currentItem();
  if (current && current->checkState() == Qt::Unchecked) return;
  std::string found;
  bool begins = false;
  for (const auto& area : made_->painted.areas) {
    if (area.page > page_ || !area.what.starts_with("section:")) continue;
    const std::string id = area.what.substr(8);
    const bool here = area.page == page_;
    if (here && current && idAt(contents_->currentRow()) == id) return;
    if (!here || !begins) found = id;
    begins = begins || here;
  }
  const QSignalBlocker quiet(contents_);
  for (int row = 0; row < contents_->count(); ++row)
    if (idAt(row) == found) contents_->setCurrentRow(row);
}

void ReportPlace::fillContents() {
  const wording::Context context{made_->sheet, job_->library()};
  const QSignalBlocker quiet(contents_);
  const int at = std::max(0, contents_->currentRow());
  const auto& sections = made_->all.sections;
  if (contents_->count() != int(sections.size())) contents_->clear();
  for (size_t i = 0; i < sections.size(); ++i) {
    const document::Section& section = sections[i];
    const QString title = wording::text(
        around_.language, section.contents.key.empty() ? section.title : document::Value(section.contents),
        context);
    QString remark;
    if (section.landscape) remark = words("reportview.landscape");
    if (section.id == "readings" && made_->missing > 0)
      remark =
          words("reportview.missing", {{"n", around_.language.number(made_->missing, 0)}}, made_->missing);
    if (section.id == "findings" && made_->openFindings > 0)
      remark = words("reportview.findings", {{"n", around_.language.number(made_->openFindings, 0)}},
                     made_->openFindings);
    const QString number = around_.language.number(section.number, 0);
    const QString text = remark.isEmpty() ? words("reportview.part", {{"number", number}, {"title", title}})
                                          : words("reportview.part-remark",
                                                  {{"number", number}, {"title", title}, {"remark", remark}});
    QListWidgetItem* item = contents_->item(int(i));
    if (!item) {
      item = new QListWidgetItem(contents_);
      item->setFlags(Qt::ItemIsEnabled | Qt::ItemIsSelectable | Qt::ItemIsUserCheckable);
      item->setSizeHint({0, kContentsRow});
    }
    item->setText(QChar(0x2002) + text);  // the box stands close
    item->setToolTip(text);
    item->setData(kId, q(section.id));
    item->setCheckState(leftOut_.contains(section.id) ? Qt::Unchecked : Qt::Checked);
  }
  contents_->setCurrentRow(std::min(at, contents_->count() - 1));
  contents_->setFixedHeight(std::max(1, contents_->count()) * kContentsRow + 8);
  count_->setText(
      words("reportview.count",
            {{"pages", words("reportview.pages", {{"n", around_.language.number(pages(), 0)}}, pages())}}));
}

QString ReportPlace::openLine(const OpenLine& line) const {
  const QString count = around_.language.number(line.count, 0);
  switch (line.kind) {
    case OpenLine::Kind::address: return words("reportview.open.address");
    case OpenLine::Kind::units: return words("reportview.open.units");
    case OpenLine::Kind::cautions:
      return words(line.what == "dead" ? "reportview.open.cautions-dead" : "reportview.open.cautions-live");
    case OpenLine::Kind::readings:
      return words(line.stage == "dead" ? "reportview.open.dead" : "reportview.open.live", {{"n", count}},
                   line.count);
    case OpenLine::Kind::wrongReadings:
      return words(line.stage == "dead" ? "reportview.open.wrong-dead" : "reportview.open.wrong-live",
                   {{"n", count}}, line.count);
    case OpenLine::Kind::item: return words("reportview.open.item", {{"text", q(line.what)}});
    case OpenLine::Kind::signature:
      return words(line.what == "owner" ? "reportview.open.owner" : "reportview.open.installer");
    case OpenLine::Kind::finding: break;
  }
  return words(
      "reportview.open.finding",
      {{"severity", wording::severityName(around_.language, line.finding->severity)},
       {"title", wording::findingTitle(around_.language, *line.finding, {made_->sheet, job_->library()})}});
}

void ReportPlace::sayOpen() {
  QStringList lines;
  for (size_t i = 0; made_ && i < made_->open.size(); ++i) {
    const OpenLine& line = made_->open[i];
    if (line.kind == OpenLine::Kind::signature) continue;  // comes with closing
    const QString text = openLine(line).toHtmlEscaped();
    lines << (line.stage.empty() ? text : QStringLiteral("<a href=\"%1\">%2</a>").arg(i).arg(text));
  }
  openHead_->setText(words(!made_            ? "reportview.open.making"
                           : lines.isEmpty() ? "reportview.open.nothing"
                                             : "reportview.open.head"));
  open_->setText(lines.join(QStringLiteral("<br>")));
  open_->setVisible(!lines.isEmpty());
}

}  // namespace ww::report
