// SPDX-License-Identifier: GPL-3.0-or-later
// Room library: the page of unit profiles - all of them searched as typed, one shown with its inner circuit
// drawn, one's own written in a form. Knows the folder of one's own profiles; no job and no other page.
#pragma once

#include <QWidget>
#include <functional>
#include <string>
#include <vector>

#include "fittings/key_map.h"
#include "history/profile_folder.h"
#include "session/surroundings.h"

class QLabel;
class QLineEdit;
class QListWidget;
class QPushButton;
class QScrollArea;
class QSplitter;
class QStackedWidget;

namespace ww::library {

class InnerView;
class ProfileForm;

/// What the page asks of a person and of the desktop; answered by dialogs, in tests by the test.
struct LibraryQuestions {
  std::function<QString(QWidget*)> toRead;
  std::function<QString(QWidget*, const QString& suggested)> toWrite;
  std::function<void(const QString& folder)> openFolder;
};

class LibraryPage : public QWidget {
  Q_OBJECT
 public:
  /// `folder`: the data folder, in which "profiles" lies.
  LibraryPage(const session::Surroundings& around, const QString& folder, QWidget* parent = nullptr);

  /// What is being written and not kept yet is taken up again by the next page on this folder.
  ~LibraryPage() override;

  /// Brought to the front: reads the folder anew and puts the focus into the search field.
  void enter();
  /// Esc: out of the form, out of the list, then the words typed go. False when there is none left.
  bool stepOut();
  std::vector<fittings::KeyLine> keys() const;
  std::vector<QWidget*> panes() const;
  void setQuestions(LibraryQuestions questions) { questions_ = std::move(questions); }

  void copyToOwn();
  void edit();
  void save();
  void remove();  ///< with Undo
  void importFile();
  void exportFile();
  void openFolder();

  QLineEdit* searchField() const { return search_; }
  QListWidget* list() const { return list_; }
  InnerView* picture() const { return picture_; }
  ProfileForm* form() const { return form_; }
  bool editing() const;
  QString details() const;
  QString countText() const;
  /// Id of the profile in front, or the name of a file that cannot be used; empty with none.
  std::string inFront() const;
  void choose(const std::string& id);

 Q_SIGNALS:
  /// The shipped profiles and the sound ones of one's own, as they are in the folder now.
  void libraryRead(const ww::equipment::Library& library);
  void said(const QString& sentence);
  void undoable(const QString& sentence, const std::function<void()>& undo);

 protected:
  bool eventFilter(QObject* watched, QEvent* event) override;

 private:
  /// One line of the list.
  struct Row {
    std::string id;  ///< of a profile, or a file's name
    bool own = false;
    int refused = -1;  ///< index of a file that cannot be used
    QString title, beneath, search;
  };
  void build();
  QWidget* buildDetail();
  void bindKeys();
  void reload();
  void fill();
  void showFront();
  void removeFile(const std::string& name);
  /// Into the folder "bin"; its place there, empty when that failed.
  QString binFile(const std::string& name) const;
  void openForm(std::string_view text, const std::string& former);
  void closeForm();
  /// A profile that was being written when the window went.
  QString unfinishedFile() const;
  bool takeUpUnfinished();
  std::string textOfFront() const;
  const Row* current() const;
  QString words(const QString& key, const wording::Args& args = {}, std::optional<int> count = {}) const;

  const session::Surroundings& around_;
  history::ProfileFolder folder_;
  LibraryQuestions questions_;
  equipment::OwnProfiles own_;
  std::vector<Row> rows_;   ///< all
  std::vector<int> shown_;  ///< indices of those that fit what was typed
  QLineEdit* search_;
  QLabel *count_, *title_, *beneath_, *details_;
  QListWidget* list_;
  QSplitter* split_;
  QStackedWidget* sides_;
  QScrollArea* scroll_;
  InnerView* picture_;
  ProfileForm* form_;
  QPushButton *copy_, *edit_, *remove_, *export_;
  fittings::KeyMap *keys_, *listKeys_;
};

}  // namespace ww::library
