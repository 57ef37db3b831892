// SPDX-License-Identifier: GPL-3.0-or-later
#include "site/site_place.h"

#include <QComboBox>
#include <QGridLayout>
#include <QLabel>
#include <QLineEdit>
#include <QMenu>
#include <QPushButton>
#include <QScrollArea>
#include <algorithm>
#include <cmath>
#include <set>

#include "fittings/number_entry.h"
#include "fittings/pieces.h"
#include "fittings/style.h"
#include "quantity/text.h"
#include "recommend/recommend.h"
#include "settings/settings.h"
#include "sheet/removal.h"
#include "site/open_item_list.h"
#include "site/survey_row.h"
#include "site/system_field.h"
#include "wording/names.h"

namespace ww::site {

namespace {

constexpr int kLeftWidth = 448, kLabelWidth = 112;
constexpr double kLeastVolts = 50, kMostVolts = 600;

QString q(const std::string& text) { return QString::fromStdString(text); }

bool anythingLanded(const sheet::Sheet& sheet) {
  const auto landed = [](const sheet::Landing& landing) {
    return !std::holds_alternative<sheet::Loose>(landing);
  };
  return std::any_of(sheet.conductors.begin(), sheet.conductors.end(),
                     [&](const sheet::Conductor& wire) { return landed(wire.endA) || landed(wire.endB); });
}

QGridLayout* form() {
  auto* grid = new QGridLayout;
  grid->setHorizontalSpacing(12);
  grid->setVerticalSpacing(6);
  grid->setColumnMinimumWidth(0, kLabelWidth);
  grid->setColumnStretch(1, 1);
  return grid;
}

}  // namespace

SitePlace::SitePlace(const session::Surroundings& surroundings, QWidget* parent)
    : Place(surroundings, parent), keys_(new fittings::KeyMap(this)) {
  setAccessibleName(words("site.name"));
  auto* row = new QHBoxLayout(this);
  row->setContentsMargins(0, 0, 0, 0);
  row->setSpacing(0);
  left_ = fittings::scrolled(sitePane());
  left_->setFixedWidth(kLeftWidth);
  right_ = fittings::scrolled(equipmentPane());
  row->addWidget(left_);
  row->addWidget(fittings::hairline(Qt::Vertical));
  row->addWidget(right_, 1);
  // The questions are asked of who wants them; Tab comes to the kinds first.
  setTabOrder(system_->line(), survey_->askButton());
  keys_->add(
      Qt::Key_Insert, words("site.key.insert"), [this] { add_->click(); },
      [this] { return add_->isEnabled(); });
  refresh();
}

/// A field that loses the keyboard as it goes still asks the place for its text.
SitePlace::~SitePlace() {
  blockSignals(true);  // who listens may be going too
  setJob(nullptr);
  delete left_;
  delete right_;
}

QWidget* SitePlace::sitePane() {
  auto* pane = new QWidget;
  fittings::setRole(pane, "panel");
  auto* column = new QVBoxLayout(pane);
  column->setContentsMargins(24, 12, 24, 8);
  column->setSpacing(6);
  column->addWidget(fittings::label(words("site.heading.site"), "heading"));
  auto* site = form();
  addText(site, "address", &job::Site::address);
  addText(site, "unit", &job::Site::unit);
  addText(site, "city", &job::Site::city);
  addText(site, "customer", &job::Site::customer);
  addText(site, "phone", &job::Site::phone);
  addText(site, "notes", &job::Site::notes, 2);
  addVisit(site);
  addInstaller(site);
  column->addLayout(site);
  column->addSpacing(8);
  survey_ = new SurveyRow(around_);
  auto* head = new QHBoxLayout;
  head->addWidget(fittings::label(words("site.heading.system"), "heading"), 1);
  head->addWidget(survey_->askButton());
  column->addLayout(head);
  column->addWidget(survey_);
  system_ = new SystemField(around_.language, sheet::standardSystems());
  column->addWidget(system_);
  kind_ = fittings::paragraph({});
  column->addWidget(kind_);
  column->addSpacing(8);
  column->addWidget(fittings::label(words("site.heading.line"), "heading"));
  auto* line = form();
  addLine(line);
  column->addLayout(line);
  column->addStretch(1);
  connect(system_, &SystemField::chosen, this, &SitePlace::place);
  connect(system_, &SystemField::refused, this, &SitePlace::refuse);
  return pane;
}

QWidget* SitePlace::equipmentPane() {
  auto* pane = new QWidget;
  auto* column = new QVBoxLayout(pane);
  column->setContentsMargins(24, 16, 24, 24);
  column->setSpacing(12);
  auto* head = new QHBoxLayout;
  head->addWidget(fittings::label(words("site.heading.equipment"), "heading"), 1);
  add_ = fittings::button(words("site.unit.add"), "plus", around_.theme, Qt::Key_Insert);
  auto* menu = new QMenu(add_);
  add_->setMenu(menu);
  head->addWidget(add_);
  column->addLayout(head);
  noUnits_ = fittings::paragraph(words("site.unit.none"));
  fittings::setRole(noUnits_, "quiet");
  column->addWidget(noUnits_);
  cardColumn_ = new QVBoxLayout;
  cardColumn_->setSpacing(12);
  column->addLayout(cardColumn_);
  column->addSpacing(8);
  column->addWidget(fittings::label(words("site.heading.items"), "heading"));
  items_ = new OpenItemList(around_);
  column->addWidget(items_);
  column->addStretch(1);
  return pane;
}

Field* SitePlace::keepField(QGridLayout* form, const char* name, Field::Binding binding, int lines) {
  const QString title = words(QStringLiteral("site.field.%1").arg(QLatin1String(name)));
  auto* field = new Field(title, std::move(binding), around_.theme, lines);
  QLabel* label = fittings::label(title);
  label->setWordWrap(true);
  label->setBuddy(field->editor());
  label->setMinimumHeight(32);
  const int row = form->rowCount();
  form->addWidget(label, row, 0, Qt::AlignTop);
  form->addWidget(field, row, 1);
  fields_.emplace_back(QLatin1String(name), field);
  return field;
}

void SitePlace::editJob(const QString& field, const std::function<void(session::Undoable&)>& change) {
  if (!job_) return;
  session::Undoable next = session::undoableOf(job_->job());
  change(next);
  job_->edit(words("site.edit", {{"field", field}}), next);
}

void SitePlace::addText(QGridLayout* form, const char* name, std::string job::Site::*member, int lines) {
  const QString title = words(QStringLiteral("site.field.%1").arg(QLatin1String(name)));
  const auto shown = [this, member] { return job_ ? q(job_->job().site.*member) : QString(); };
  const auto keep = [this, member, title](const QString& text) {
    const std::string typed = text.trimmed().toStdString();
    if (typed.size() > kMostText) return words("site.bad.long");
    editJob(title, [&](session::Undoable& next) { next.site.*member = typed; });
    return QString();
  };
  keepField(form, name, {shown, keep}, lines);
}

void SitePlace::addVisit(QGridLayout* form) {
  const auto shown = [this] {
    return job_ && !job_->job().visit.empty() ? around_.language.day(job_->job().visit) : QString();
  };
  const auto keep = [this](const QString& text) {
    const auto day = dayOf(text, around_.language);
    if (!day) return words("site.bad.date");
    editJob(words("site.field.visit"), [&](session::Undoable& next) { next.visit = *day; });
    return QString();
  };
  keepField(form, "visit", {shown, keep});
}

void SitePlace::addInstaller(QGridLayout* form) {
  const auto shown = [this] { return job_ ? q(job_->job().installer) : QString(); };
  const auto keep = [this](const QString& text) {
    editJob(words("site.field.installer"),
            [&](session::Undoable& next) { next.installer = text.trimmed().toStdString(); });
    return QString();
  };
  keepField(form, "installer", {shown, keep});
}

void SitePlace::addLine(QGridLayout* form) {
  addVolts(form);
  frequency_ = new QComboBox;
  for (const char* hertz : {"60", "50"})
    frequency_->addItem(around_.language.quantity(QString(hertz).toDouble(), "Hz", 0), QString(hertz));
  const QString title = words("site.field.frequency");
  fittings::addRow(form, title, frequency_);
  connect(frequency_, &QComboBox::activated, this, [this, title] {
    editSetting(title, settings::kLineFrequency, frequency_->currentData().toString().toStdString());
  });
  addShare(form, "low-line", &session::Undoable::lowLine);
  addShare(form, "high-line", &session::Undoable::highLine);
}

void SitePlace::addVolts(QGridLayout* form) {
  const QString title = words("site.field.line-volts");
  const auto volts = [this] {
    const auto set = job_ ? job_->sheet().settings.find("", settings::kLineVolts) : std::nullopt;
    return quantity::parseNumber(set.value_or("120")).value_or(120);
  };
  const auto shown = [this, volts] {
    return around_.language.quantity(volts(), "V", volts() == int(volts()) ? 0 : 1);
  };
  const auto keep = [this, title](QString text) {
    const auto value = fittings::decimalOf(text.remove(QChar(u'V'), Qt::CaseInsensitive));
    if (!value || *value < kLeastVolts || *value > kMostVolts)
      return words("site.bad.volts", {{"least", around_.language.quantity(kLeastVolts, "V", 0)},
                                      {"most", around_.language.quantity(kMostVolts, "V", 0)}});
    editSetting(title, settings::kLineVolts, quantity::printNumber(*value));
    return QString();
  };
  keepField(form, "line-volts", {shown, keep});
}

void SitePlace::addShare(QGridLayout* form, const char* name, double session::Undoable::*member) {
  const QString title = words(QStringLiteral("site.field.%1").arg(QLatin1String(name)));
  const bool low = member == &session::Undoable::lowLine;
  const auto share = [this, low] {
    if (!job_) return low ? 92.0 : 110.0;
    return 100 * (low ? job_->job().lowLine : job_->job().highLine);
  };
  const auto shown = [this, share] {
    const double value = share();
    return around_.language.quantity(value, "%", std::abs(value - std::round(value)) < 1e-9 ? 0 : 1);
  };
  const double least = low ? 50 : 100, most = low ? 100 : 150;
  const auto keep = [this, title, member, least, most](QString text) {
    const auto value = fittings::decimalOf(text.remove(u'%').remove(QChar(0x202F)));
    const double other =
        job_ ? 100 * (least < 100 ? job_->job().highLine : job_->job().lowLine) : (least < 100 ? 110 : 92);
    if (!value || *value < least || *value > most || *value == other)
      return words("site.bad.share", {{"least", around_.language.quantity(least, "%", 0)},
                                      {"most", around_.language.quantity(most, "%", 0)}});
    editJob(title, [&](session::Undoable& next) { next.*member = *value / 100; });
    return QString();
  };
  keepField(form, name, {shown, keep});
}

void SitePlace::editSetting(const QString& field, std::string_view key, const std::string& value) {
  if (!job_) return;
  sheet::Sheet next = job_->sheet();
  next.settings.set(std::string(key), value);
  job_->edit(words("site.edit", {{"field", field}}), next);
}

void SitePlace::place(const sheet::SystemKind& kind) {
  if (!job_ || job_->readOnly()) return;
  if (anythingLanded(job_->sheet())) {
    Q_EMIT say(words("site.system.landed"));
    return;
  }
  sheet::Sheet start;
  start.nextId = job_->sheet().nextId;
  const sheet::Sheet next = recommend::withDerived(sheet::withSystem(start, kind), job_->library());
  if (!survey_->takeImplied(next)) return;
  job_->edit(words("site.system.placed", {{"system", wording::inLanguage(around_.language, kind.title)}}),
             next);
  system_->clear();
  Q_EMIT goTo(QStringLiteral("wiring"), {});
}

void SitePlace::refuse(const std::string& refusal) {
  system_->clear();
  survey_->take(survey::refusedWith(refusal));
  survey_->askButton()->setFocus();
}

void SitePlace::offerUnits() {
  QMenu* menu = add_->menu();
  menu->clear();
  if (!job_) return;
  std::vector<std::pair<QString, std::string>> titles;
  for (const auto& [id, profile] : job_->library().profiles)
    titles.emplace_back(wording::inLanguage(around_.language, profile->title), id);
  std::sort(titles.begin(), titles.end(),
            [](const auto& a, const auto& b) { return a.first.localeAwareCompare(b.first) < 0; });
  for (const auto& [title, id] : titles)
    connect(menu->addAction(title), &QAction::triggered, this, [this, id = id] { addUnit(id); });
}

void SitePlace::addUnit(const std::string& profile) {
  const equipment::Profile* known = job_->library().find(profile);
  if (!job_ || !known) return;
  sheet::Sheet next = job_->sheet();
  sheet::Unit unit;
  unit.tag = sheet::freeTag(next, *known);
  unit.profile = profile;
  next.addUnit(unit);
  if (!survey_->takeImplied(next)) return;
  if (!job_->edit(words("site.unit.added"), next) || cards_.empty()) return;
  cards_.back()->fields().front()->setFocus();
}

void SitePlace::removeUnit(int unit) {
  if (!job_) return;
  const QString name =
      wording::unitName(around_.language, {job_->sheet(), job_->library()}, sheet::UnitId{unit});
  if (job_->edit(words("site.unit.removed"), sheet::withoutUnit(job_->sheet(), sheet::UnitId{unit})))
    Q_EMIT offered(words("wiring.gone.unit", {{"unit", name}}));
}

void SitePlace::setJob(session::OpenJob* job) {
  if (job_) job_->disconnect(this);
  job_ = job;
  for (const auto& [name, field] : fields_) field->restore();
  for (UnitCard* card : cards_) card->letGo();
  cards_.clear();
  offerUnits();
  items_->setJob(job);
  survey_->setJob(job);
  if (job_) {
    connect(job_, &session::OpenJob::edited, this, &SitePlace::refresh);
    connect(job_, &session::OpenJob::sheetChanged, this, &SitePlace::refresh);
    connect(job_, &session::OpenJob::factsChanged, this, &SitePlace::refresh);
  }
  refresh();
}

void SitePlace::refresh() {
  const bool open = job_ && !job_->readOnly();
  for (const auto& [name, field] : fields_) {
    field->setReadOnly(!open);
    field->refresh();
  }
  const auto hertz = job_ ? job_->sheet().settings.find("", settings::kLineFrequency) : std::nullopt;
  frequency_->setCurrentIndex(std::max(0, frequency_->findData(q(hertz.value_or("60")))));
  frequency_->setEnabled(open);
  const bool refused = job_ && !job::refusalsOf(job_->job()).empty();
  add_->setEnabled(open && !refused);
  const bool landed = job_ && anythingLanded(job_->sheet());
  system_->setVisible(open && !landed && !refused);
  survey_->refresh();
  const auto& kinds = sheet::standardSystems();
  const std::string letter = job_ ? sheet::systemOf(job_->sheet(), kinds, job_->library()) : std::string();
  const auto kind = std::find_if(kinds.begin(), kinds.end(),
                                 [&](const sheet::SystemKind& each) { return each.id == letter; });
  kind_->setText(
      kind == kinds.end()
          ? words(landed ? "site.system.other" : "site.system.yet")
          : words("site.system.is", {{"system", wording::inLanguage(around_.language, kind->title)}}));
  kind_->setVisible(!refused);
  refreshCards();
  items_->refresh();
  Q_EMIT markChanged();
}

void SitePlace::refreshCards() {
  std::vector<sheet::UnitId> wanted;
  if (job_)
    for (const auto& unit : job_->sheet().units) wanted.push_back(unit.id);
  noUnits_->setVisible(wanted.empty() && add_->isEnabled());
  const bool same = std::equal(cards_.begin(), cards_.end(), wanted.begin(), wanted.end(),
                               [](const UnitCard* card, sheet::UnitId id) { return card->unit() == id; });
  if (same) {
    for (UnitCard* card : cards_) card->refresh();
    return;
  }
  for (UnitCard* card : cards_) card->letGo();  // one may be what asked
  cards_.clear();
  for (const sheet::UnitId id : wanted) {
    auto* card = new UnitCard(around_, *job_, id);
    connect(card, &UnitCard::remove, this, &SitePlace::removeUnit);
    cardColumn_->addWidget(card);
    cards_.push_back(card);
  }
}

void SitePlace::enter() {
  Field* address = field(QStringLiteral("address"));
  const bool started = job_ && !job_->sheet().units.empty();
  if (started || !job_ || job_->job().site.address.empty())
    address->setFocus();
  else
    system_->setFocus();
}

std::vector<fittings::KeyLine> SitePlace::keys() const {
  auto lines = keys_->lines();
  lines.push_back({Qt::Key_Return, words("site.key.enter")});
  lines.push_back({Qt::Key_Escape, words("site.key.escape")});
  return lines;
}

fittings::StageMark SitePlace::mark() const {
  if (job_ && !job::refusalsOf(job_->job()).empty()) return {paint::Severity::stop, 1};
  const bool whole = job_ && !job_->job().site.address.empty() && !job_->sheet().units.empty();
  return {whole ? paint::Severity::right : paint::Severity::notMeasured, 0};
}

std::vector<QWidget*> SitePlace::panes() {
  std::vector<QWidget*> result{field(QStringLiteral("address"))->editor()};
  if (!cards_.empty()) result.push_back(cards_.front()->fields().front()->editor());
  return result;
}

void SitePlace::bring(const QString& what) {
  const sheet::Unit* unit = job_ ? job_->sheet().unitByTag(what.toStdString()) : nullptr;
  for (UnitCard* card : cards_) {
    if (!unit || card->unit() != unit->id) continue;
    // Cards that were made since the pane was last seen have no places yet.
    right_->widget()->layout()->activate();
    right_->widget()->adjustSize();
    right_->ensureWidgetVisible(card, 0, 24);
    card->fields().front()->setFocus();
  }
}

Field* SitePlace::field(const QString& name) const {
  const auto found =
      std::find_if(fields_.begin(), fields_.end(), [&](const auto& f) { return f.first == name; });
  return found == fields_.end() ? nullptr : found->second;
}

QString SitePlace::words(const QString& key, const wording::Args& args) const {
  return around_.language.sentence(key, args);
}

}  // namespace ww::site
