// SPDX-License-Identifier: GPL-3.0-or-later
#include "library/inner_view.h"

#include <QHelpEvent>
#include <QPainter>
#include <QToolTip>
#include <algorithm>
#include <cmath>

#include "fittings/style.h"
#include "paint/diagram_painter.h"
#include "paint/inner_painter.h"
#include "wording/profile_text.h"

namespace ww::library {

namespace {

QString q(const std::string& text) { return QString::fromStdString(text); }

}  // namespace

InnerView::InnerView(const session::Surroundings& around, QWidget* parent)
    : QWidget(parent), around_(around) {
  QSizePolicy policy(QSizePolicy::Expanding, QSizePolicy::Fixed);
  policy.setHeightForWidth(true);
  setSizePolicy(policy);
  setAccessibleName(around_.language.sentence("library.circuit"));
  setMinimumWidth(320);
}

void InnerView::setProfile(std::shared_ptr<const equipment::Profile> profile) {
  profile_ = std::move(profile);
  inner_ = {};
  if (profile_)
    inner_ = drawing::layoutInner(*profile_, paint::textMeasure(), [this](const equipment::Element& element) {
      return wording::partFigure(around_.language, element.part).toStdString();
    });
  setVisible(profile_ && !profile_->elements.empty());
  setAccessibleDescription(spoken());
  updateGeometry();
  update();
}

QString InnerView::spoken() const {
  QStringList lines;
  if (profile_)
    for (const equipment::Element& element : profile_->elements)
      lines << around_.language.sentence("library.element-line",
                                         {{"id", q(element.id)},
                                          {"kind", wording::partKind(around_.language, element.part)},
                                          {"from", q(element.a)},
                                          {"to", q(element.b)},
                                          {"figure", wording::partFigure(around_.language, element.part)}});
  return lines.join(u' ');
}

double InnerView::scaleFor(int width) const {
  // Enlarged texts ask for an enlarged picture.
  const double most = fittings::enlargement(font());
  return inner_.bounds.w > 0 ? std::clamp(width / inner_.bounds.w, 0.4, most) : 1;
}

int InnerView::heightForWidth(int width) const { return int(std::ceil(inner_.bounds.h * scaleFor(width))); }

QSize InnerView::sizeHint() const { return {int(std::min(inner_.bounds.w, 720.0)), heightForWidth(width())}; }

void InnerView::paintEvent(QPaintEvent*) {
  if (!profile_) return;
  QPainter painter(this);
  const double scale = scaleFor(width());
  painter.scale(scale, scale);
  painter.translate(-inner_.bounds.x, -inner_.bounds.y);
  paint::paintInner(painter, inner_, around_.theme);
}

/// All figures of the element that is pointed at; the same stands in the list below.
bool InnerView::event(QEvent* event) {
  if (event->type() != QEvent::ToolTip || !profile_) return QWidget::event(event);
  const auto* help = static_cast<QHelpEvent*>(event);
  const double scale = scaleFor(width());
  const double x = help->pos().x() / scale + inner_.bounds.x, y = help->pos().y() / scale + inner_.bounds.y;
  for (size_t i = 0; i < inner_.elements.size(); ++i)
    if (drawing::overlap(inner_.elements[i].box.grown(8), {x, y, 0.1, 0.1})) {
      const equipment::Element& element = profile_->elements[i];
      QToolTip::showText(
          help->globalPos(),
          q(element.id) + QStringLiteral(": ") + wording::partFigures(around_.language, element.part), this);
      return true;
    }
  QToolTip::hideText();
  return true;
}

}  // namespace ww::library
