// SPDX-License-Identifier: GPL-3.0-or-later
#include "paint/page_flow.h"

#include <QFontMetricsF>
#include <QPageLayout>
#include <cmath>

namespace ww::paint {

namespace {

constexpr double kMargin = 18 * kMm;
constexpr double kHeadHeight = 22 * kPt;
constexpr double kFootHeight = 20 * kPt;
constexpr double kHairline = 0.5 * kPt;
constexpr int kWrap = Qt::TextWordWrap;

}  // namespace

QFont paperFont(double points, bool bold) {
  QFont face = font(13, bold);
  face.setPixelSize(int(std::lround(points * kPt)));
  return face;
}

PageFlow::PageFlow(Pages& pages, const document::RunningHead& head, const wording::Language& language,
                   PaperSize paper, int count)
    : sheets_(pages),
      head_(head),
      language_(language),
      theme_(paint::theme(ThemeName::paper)),
      paper_(paper),
      pages_(count) {}

void PageFlow::startPage(bool landscape) {
  landscape_ = landscape;
  const QPageSize size(paper_ == PaperSize::a4 ? QPageSize::A4 : QPageSize::Letter);
  ++page_;
  QPaintDevice* device = sheets_.turn(
      QPageLayout(size, landscape ? QPageLayout::Landscape : QPageLayout::Portrait, QMarginsF(0, 0, 0, 0)));
  if (device != painter_.device()) {
    if (painter_.isActive()) painter_.end();
    painter_.begin(device);
  }
  const QRectF sheet(0, 0, device->width(), device->height());
  body_ = sheet.adjusted(kMargin, kMargin + kHeadHeight, -kMargin, -kMargin - kFootHeight);
  y_ = body_.top();
  drawFrame();
}

bool PageFlow::need(double height) {
  if (height <= room() || y_ <= body_.top()) return false;
  startPage(landscape_);
  return true;
}

void PageFlow::finish() { painter_.end(); }

double PageFlow::textHeight(const QString& text, const QFont& font, double width) const {
  const QFontMetricsF metrics(font, painter_.device());
  if (text.isEmpty()) return 0;
  return metrics.boundingRect(QRectF(0, 0, width, 1e6), kWrap, text).height();
}

void PageFlow::drawText(const QRectF& box, const QString& text, const QFont& font, const QColor& colour,
                        int align) {
  painter_.setFont(font);
  painter_.setPen(colour);
  painter_.drawText(box, kWrap | align | Qt::TextDontClip, text);
}

void PageFlow::drawFrame() {
  const QFont small = paperFont(8);
  const double line = QFontMetricsF(small, painter_.device()).height();
  const QRectF head(body_.left(), body_.top() - kHeadHeight, body_.width(), line);
  QString company = QString::fromStdString(head_.company);
  if (!head_.phone.empty()) company += QStringLiteral(" · ") + QString::fromStdString(head_.phone);
  QString place = QString::fromStdString(head_.address);
  if (!head_.visit.empty())
    place += (place.isEmpty() ? "" : QStringLiteral(" · ")) +
             language_.sentence("report.visit", {{"day", language_.day(head_.visit)}});
  drawText(head, company, small, theme_.ink2);
  drawText(head, place, small, theme_.ink2, Qt::AlignRight);
  const QRectF foot(body_.left(), body_.bottom() + kFootHeight - line, body_.width(), line);
  drawText(foot,
           language_.sentence("report.foot", {{"job", QString::fromStdString(head_.jobNumber)},
                                              {"hash", QString::fromStdString(head_.hash)},
                                              {"version", QString::fromStdString(head_.version)}}),
           small, theme_.ink2);
  drawText(foot,
           language_.sentence("report.page", {{"page", language_.number(page_ + 1, 0)},
                                              {"pages", language_.number(pages_, 0)}}),
           small, theme_.ink2, Qt::AlignRight);
  painter_.setPen(QPen(theme_.controlEdge, kHairline));
  const double above = head.bottom() + 3 * kPt;
  const double below = foot.top() - 4 * kPt;
  painter_.drawLine(QPointF(body_.left(), above), QPointF(body_.right(), above));
  painter_.drawLine(QPointF(body_.left(), below), QPointF(body_.right(), below));
}

}  // namespace ww::paint
