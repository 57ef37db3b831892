// SPDX-License-Identifier: GPL-3.0-or-later
// The pieces of the findings strip and its keys.
#include <QGridLayout>
#include <QHBoxLayout>
#include <QScrollArea>
#include <QStackedWidget>
#include <QVBoxLayout>
#include <algorithm>

#include "fittings/pieces.h"
#include "fittings/style.h"
#include "wiring/finding_delegate.h"
#include "wiring/findings_strip.h"

namespace ww::wiring {

FindingsStrip::FindingsStrip(InHand& hand, SearchMends search, QWidget* parent)
    : QWidget(parent),
      hand_(hand),
      finder_(new MendFinder(std::move(search), this)),
      line_(new QWidget(this)),
      pages_(new QStackedWidget(this)) {
  fittings::setRole(this, "panel");
  setAttribute(Qt::WA_StyledBackground);
  setAccessibleName(hand_.words("findings"));
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(0);
  auto* edge = fittings::hairline(Qt::Horizontal, this);
  column->addWidget(edge);
  column->addWidget(line_);
  column->addWidget(pages_);
  pages_->setFixedHeight(fittings::kFindingsOpen);
  pages_->hide();
  buildLine();
  auto* whole = new QWidget;
  auto* row = new QHBoxLayout(whole);
  row->setContentsMargins(0, 0, 0, 0);
  row->setSpacing(0);
  pages_->addWidget(whole);
  buildList();
  buildDetail();
  bindKeys();
  connect(&hand_, &InHand::checked, this, &FindingsStrip::takeFindings);
  connect(&hand_, &InHand::sheetChanged, this, [this] {
    endPreview();
    if (hand_.checking()) takeLine();
  });
  connect(&hand_, &InHand::jobChanged, this, [this] {
    key_.clear();
    stops_.reset();
    entry_->close();
  });
  connect(finder_, &MendFinder::found, this, &FindingsStrip::takeMends);
  takeFindings();
}

void FindingsStrip::buildLine() {
  line_->setMinimumHeight(fittings::kFindingsStrip);
  auto* row = new QHBoxLayout(line_);
  row->setContentsMargins(16, 2, 16, 2);
  row->setSpacing(16);
  badges_ = new QHBoxLayout;
  badges_->setSpacing(12);
  row->addLayout(badges_);
  sentence_ = new fittings::ElidedLabel(nullptr, line_);
  row->addWidget(sentence_, 1);
  openButton_ = fittings::button(QStringLiteral("F3"), {}, hand_.around().theme, Qt::Key_F3, nullptr, line_);
  openButton_->setAccessibleName(hand_.words("findings-open"));
  openButton_->setToolTip(hand_.words("findings-open"));
  openButton_->setStyleSheet(QStringLiteral("min-height: 22px; padding: 0 6px; font-weight: 700;"));
  connect(openButton_, &QPushButton::clicked, this, [this] { step(0); });
  row->addWidget(openButton_);
}

void FindingsStrip::buildList() {
  auto* row = static_cast<QHBoxLayout*>(pages_->widget(0)->layout());
  auto* left = new QWidget(pages_->widget(0));
  auto* column = new QVBoxLayout(left);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(0);
  auto* head = new QHBoxLayout;
  head->setContentsMargins(16, 6, 16, 6);
  head->setSpacing(8);
  auto* title = fittings::label(hand_.words("findings"), nullptr, left);
  QFont bold = title->font();
  bold.setWeight(QFont::Bold);
  title->setFont(bold);
  head->addWidget(title);
  head->addWidget(fittings::label(QStringLiteral("F3"), "status", left));
  head->addStretch(1);
  count_ = fittings::label({}, "quiet", left);
  head->addWidget(count_);
  column->addLayout(head);
  left->setFixedWidth(std::max(382, head->sizeHint().width() + 3 * fontMetrics().averageCharWidth()));
  list_ = new QListWidget(left);
  list_->setAccessibleName(hand_.words("findings"));
  list_->setItemDelegate(new FindingDelegate(hand_.around().theme, list_));
  list_->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  list_->setVerticalScrollMode(QAbstractItemView::ScrollPerPixel);
  list_->setResizeMode(QListView::Adjust);
  title->setBuddy(list_);
  column->addWidget(list_, 1);
  row->addWidget(left);
  row->addWidget(fittings::hairline(Qt::Vertical, pages_));
  connect(list_, &QListWidget::currentRowChanged, this, [this](int) {
    if (!filling_ && open_) showChosen(list_->hasFocus());
  });
  connect(list_, &QListWidget::itemClicked, this, [this] { showChosen(true); });
}

void FindingsStrip::buildDetail() {
  auto* inner = new QWidget;
  auto* grid = new QGridLayout(inner);
  grid->setContentsMargins(24, 12, 24, 12);
  grid->setHorizontalSpacing(16);
  grid->setVerticalSpacing(8);
  grid->setColumnStretch(1, 1);
  const auto caption = [&](const char* key) {
    auto* made = fittings::label(hand_.words(key), "caption", inner);
    made->setContentsMargins(0, 2, 0, 0);
    return made;
  };
  what_ = fittings::paragraph({}, inner);
  why_ = fittings::paragraph({}, inner);
  what_->setTextInteractionFlags(Qt::NoTextInteraction);
  why_->setTextInteractionFlags(Qt::NoTextInteraction);
  whyCaption_ = caption("caption.why");
  mends_ = new QListWidget(inner);
  mends_->setAccessibleName(hand_.words("mends.name"));
  mends_->setItemDelegate(new MendDelegate(hand_.around().theme, mends_));
  mends_->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  mends_->setVerticalScrollBarPolicy(Qt::ScrollBarAsNeeded);
  mendState_ = fittings::label({}, "status", inner);
  mendState_->setWordWrap(true);
  accept_ = fittings::button(hand_.words("accept.button"), QStringLiteral("note"), hand_.around().theme,
                             Qt::CTRL | Qt::Key_Return, nullptr, inner);
  connect(accept_, &QPushButton::clicked, this, &FindingsStrip::acceptChosen);
  entry_ = new EntryLine(hand_, inner);
  connect(entry_, &EntryLine::closed, this, [this] { list_->setFocus(Qt::OtherFocusReason); });
  grid->addWidget(caption("caption.what"), 0, 0, Qt::AlignTop);
  grid->addWidget(what_, 0, 1);
  grid->addWidget(whyCaption_, 1, 0, Qt::AlignTop);
  grid->addWidget(why_, 1, 1);
  grid->addWidget(caption("caption.mends"), 2, 0, Qt::AlignTop);
  auto* third = new QVBoxLayout;
  third->setSpacing(4);
  third->addWidget(mends_);
  third->addLayout(mendRow(inner));
  grid->addLayout(third, 2, 1);
  grid->addWidget(accept_, 3, 1, Qt::AlignLeft);
  grid->addWidget(entry_, 4, 1);
  grid->setRowStretch(5, 1);
  static_cast<QHBoxLayout*>(pages_->widget(0)->layout())
      ->addWidget(fittings::scrolled(inner, pages_->widget(0)), 1);
  connect(mends_, &QListWidget::currentRowChanged, this, [this] { fitMendRow(); });
  connect(mends_, &QListWidget::itemDoubleClicked, this, [this] { previewMend(); });
}

/// What can be done with the mend in front, by mouse too, and how things stand with the search.
QHBoxLayout* FindingsStrip::mendRow(QWidget* parent) {
  const auto& theme = hand_.around().theme;
  preview_ = fittings::button(hand_.words("mends.preview"), QStringLiteral("look"), theme, Qt::Key_Space,
                              nullptr, parent);
  apply_ = fittings::button(hand_.words("mends.apply"), QStringLiteral("tick"), theme, Qt::Key_Return,
                            nullptr, parent);
  connect(preview_, &QPushButton::clicked, this, [this] { previewMend(); });
  connect(apply_, &QPushButton::clicked, this, [this] { applyMend(); });
  auto* row = new QHBoxLayout;
  row->setSpacing(8);
  row->addWidget(preview_);
  row->addWidget(apply_);
  row->addWidget(mendState_, 1);
  return row;
}

void FindingsStrip::bindKeys() {
  auto* ofMends = new fittings::KeyMap(mends_);
  ofMends->add(Qt::Key_Space, hand_.words("key.preview"), [this] { previewMend(); });
  ofMends->add(Qt::Key_Return, hand_.words("key.apply"), [this] { applyMend(); });
  auto* ofList = new fittings::KeyMap(list_);
  ofList->add(Qt::Key_Return, {}, [this] { toMends(); });
  auto* whole = new fittings::KeyMap(this);
  whole->add(
      Qt::CTRL | Qt::Key_Return, hand_.words("key.accept"), [this] { acceptChosen(); },
      [this] { return open_ && accept_->isVisible(); });
  keyMaps_ = {ofMends, whole};
}

std::vector<fittings::KeyLine> FindingsStrip::keys() const {
  std::vector<fittings::KeyLine> all;
  for (const auto* map : keyMaps_)
    for (const auto& line : map->lines()) all.push_back(line);
  return all;
}

}  // namespace ww::wiring
