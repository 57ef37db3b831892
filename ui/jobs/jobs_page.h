// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QTimer>
#include <QWidget>
#include <functional>

#include "fittings/key_map.h"
#include "fittings/place.h"
#include "jobs/shelf.h"
#include "session/surroundings.h"

class QLabel;
class QLineEdit;
class QPushButton;
class QSplitter;
class QTableView;
class QHBoxLayout;

namespace ww::jobs {

class JobsModel;
class PreviewPane;
class RowDelegate;

/// How the page asks a person for files; answered by a dialog, in tests by the test.
struct FileQuestions {
  std::function<QStringList(QWidget*)> toRead;
  std::function<QString(QWidget*, const QString& suggested)> toWrite;
};

/// The start page. Focus is in the search field; Down enters the list, typing goes back.
class JobsPage : public QWidget {
  Q_OBJECT
 public:
  JobsPage(const session::Surroundings& around, Shelf& shelf, QWidget* parent = nullptr);

  /// Brought to the front: asks anew and puts the focus into the search field.
  void enter();
  void reload();
  /// Puts a job in front the next time the list is read, where it is in it.
  void choose(const std::string& id) { front_ = id; }
  void stepOut();  ///< Esc: out of the list, then the words typed go
  void setFileQuestions(FileQuestions questions) { questions_ = std::move(questions); }
  void importFiles();
  void exportSelected();
  std::vector<fittings::KeyLine> keys() const;
  std::vector<QWidget*> panes() const;
  QByteArray layoutState() const;
  void restoreLayout(const QByteArray& state);

  QLineEdit* searchField() const { return search_; }
  QTableView* list() const { return list_; }
  PreviewPane* previewPane() const { return preview_; }
  QString countText() const;

 Q_SIGNALS:
  void newWanted();
  void openWanted(const std::string& id);
  void callBackWanted(const std::string& id);
  void duplicateWanted(const std::string& id);
  void printWanted(const std::string& id);
  void binWanted(const std::vector<std::string>& ids);
  void restoreWanted(const std::vector<std::string>& ids);
  void importWanted(const QStringList& files);
  void exportWanted(const std::vector<std::string>& ids, const QString& file);
  void demoWanted();

 protected:
  bool eventFilter(QObject* watched, QEvent* event) override;
  void dragEnterEvent(QDragEnterEvent* event) override;
  void dropEvent(QDropEvent* event) override;

 private:
  void build();
  void buildFilters(QHBoxLayout* row);
  void buildList();
  void connectButtons();
  void bindKeys();
  void ask();
  void take(const Answer& answer);
  void currentMoved();
  void addWord(const QString& word);
  void setColumns();
  void enterPressed();
  const Entry* current() const;
  std::vector<std::string> selected() const;
  void withCurrent(const std::function<void(const Entry&)>& act);
  QString sentence(const char* key, const wording::Args& args = {}) const;

  const session::Surroundings& around_;
  Shelf& shelf_;
  FileQuestions questions_;
  JobsModel* model_;
  RowDelegate* delegate_;
  QLineEdit* search_;
  QLabel *count_, *empty_;
  QTableView* list_;
  PreviewPane* preview_;
  QSplitter* split_;
  QWidget* emptyPane_;
  QPushButton *emptyNew_, *emptyDemo_;
  QTimer askSoon_;
  fittings::KeyMap* keys_;
  fittings::KeyMap* listKeys_;
  std::string front_;  ///< id of the job previewed
  QString asked_;      ///< the query whose answer is shown
};

}  // namespace ww::jobs
