// SPDX-License-Identifier: GPL-3.0-or-later
// Room report: the report before it is paper - which parts, which language, how it looks page by page, what
// stands open - and signing and closing. Pages come from the painter that makes the PDF. Knows the session
// and fittings; no other stage, no store.
#pragma once

#include <functional>
#include <memory>

#include "fittings/key_map.h"
#include "fittings/place.h"
#include "report/close_sheet.h"
#include "report/page_view.h"
#include "report/press.h"
#include "report/worker.h"

class QComboBox;
class QLabel;
class QListWidget;
class QPagedPaintDevice;
class QPushButton;
class QStackedWidget;

namespace ww::report {

class ReportPlace : public fittings::Place {
  Q_OBJECT
 public:
  ReportPlace(const session::Surroundings& surroundings, QWidget* parent = nullptr);
  ~ReportPlace() override;

  void setJob(session::OpenJob* job) override;
  void enter() override;
  std::vector<fittings::KeyLine> keys() const override;
  fittings::StageMark mark() const override;
  QWidget* topBar() override { return topBar_; }
  bool stepOut() override;
  std::vector<QWidget*> panes() override;

  /// Where a PDF goes: asked with a suggested name; an empty answer gives it up. Anything but the dialog of
  /// the system is put in from outside.
  std::function<QString(const QString& suggested)> askFile;
  /// What is printed on, sheet size and orientation as given; null gives it up.
  std::function<std::shared_ptr<QPagedPaintDevice>(paint::PaperSize paper)> askPrinter;

  /// True while pages, a file or a print are being made.
  bool busy() const { return worker_->busy(); }
  int pages() const;
  int page() const { return page_; }
  void showPage(int page);
  QListWidget* contents() const { return contents_; }
  QComboBox* paper() const { return paper_; }
  QComboBox* reportLanguage() const { return reportLanguage_; }
  PageView* view() const { return view_; }
  CloseSheet* closeSheet() const { return closeSheet_; }
  bool closing() const;
  QString openText() const;

 private:
  QWidget* contentsPane();
  QWidget* previewPane();
  void buildTopBar();
  void bindKeys();
  Source source() const;
  void changed();
  void remake();
  void takeOver(std::shared_ptr<const Made> made);
  void fillContents();
  void markPart();
  void sayOpen();
  QString openLine(const OpenLine& line) const;
  void wantImage(int widthPixels);
  void follow(QPointF share);
  void followLink(const QString& link);
  void goToArea(const std::string& what);
  void savePdf();
  void print();
  void openCloseSheet();
  void showCloseSheet();
  void leaveCloseSheet();
  void signAndClose();
  QString words(const char* key, const wording::Args& args = {}, std::optional<int> count = {}) const;

  session::OpenJob* job_ = nullptr;
  std::shared_ptr<const Made> made_;
  std::set<std::string> leftOut_;
  bool stale_ = false;  ///< the job changed while another place was in front
  int page_ = 0;
  int wanted_ = 0;  ///< width of the image, pixels

  QStackedWidget* right_;
  QListWidget* contents_;
  QLabel *count_, *openHead_, *open_, *foot_;
  QComboBox *paper_, *reportLanguage_;
  PageView* view_;
  CloseSheet* closeSheet_;
  QWidget* topBar_;
  QPushButton *save_, *print_, *sign_;
  fittings::KeyMap* keys_;
  Worker* worker_;
};

}  // namespace ww::report
