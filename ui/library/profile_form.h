// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>
#include <functional>
#include <memory>
#include <vector>

#include "library/draft.h"
#include "session/surroundings.h"

class QGridLayout;
class QLabel;
class QPlainTextEdit;
class QPushButton;
class QScrollArea;
class QStackedWidget;
class QVBoxLayout;

namespace ww::library {

class InnerView;
class RowsTable;

/// A profile of one's own being written: every member in a field, and beside the field at once what is wrong
/// with it; below, all of it with places, and the inner circuit as soon as it is sound. The whole can be
/// written as the text of its file too, where members stand that have no field.
class ProfileForm : public QWidget {
  Q_OBJECT
 public:
  explicit ProfileForm(const session::Surroundings& around, QWidget* parent = nullptr);
  ~ProfileForm() override;

  /// `former`: the id under which it is kept already; empty for a new one.
  void open(std::string_view text, const std::string& former, const equipment::Library& library);
  /// What is open was opened before, under that id, and is not kept yet.
  void takeUp(const std::string& former);
  void leave();
  const Draft* draft() const { return draft_.get(); }
  const std::string& former() const { return former_; }
  /// Whether anything is other than when it was opened.
  bool changed() const;
  /// Puts the keyboard into the first field with something wrong, else into the first.
  void focusFirst();

  /// By JSON pointer: "/id", "/title/en", "/terminals"; null when there is none.
  QWidget* editor(const std::string& pointer) const;
  QString complaint(const std::string& pointer) const;
  /// The text of the file instead of the fields, or the fields again; not while the text cannot be read.
  void showText(bool text);
  bool showsText() const;
  QPlainTextEdit* textEditor() const { return text_; }
  QPushButton* textButton() const { return asText_; }
  QPushButton* saveButton() const { return save_; }
  QPushButton* leaveButton() const { return leave_; }
  QString allProblems() const;

 Q_SIGNALS:
  void saveWanted();
  void leaveWanted();

 private:
  struct FormField {
    std::string pointer;
    QWidget* editor = nullptr;
    QLabel* complaint = nullptr;
    std::function<void()> refresh;
  };
  void build(QVBoxLayout* column);
  void addField(QGridLayout* grid, const std::string& pointer, QWidget* editor,
                std::function<void()> refresh);
  void addLine(QGridLayout* grid, const std::string& pointer, bool list = false);
  void addChoice(QGridLayout* grid, const std::string& pointer, std::vector<std::string> ids,
                 const std::string& wordKind);
  void addFlag(QGridLayout* grid, const std::string& pointer);
  void addLines(QVBoxLayout* column, const std::string& pointer);
  void addRows(QVBoxLayout* column, const std::string& pointer, RowsTable* table);
  void addTables(QVBoxLayout* column);
  void put(const std::string& pointer, Json value);
  void takeText();
  void tell();
  QString words(const QString& key, const wording::Args& args = {}) const;
  QString title(const std::string& pointer) const;

  const session::Surroundings& around_;
  std::unique_ptr<Draft> draft_;
  Json opened_;
  std::string former_;
  std::vector<FormField> fields_;
  std::vector<std::pair<std::string, RowsTable*>> tables_;
  QScrollArea* scroll_;
  QLabel *head_, *state_, *all_;
  QPushButton *save_, *leave_, *asText_;
  QStackedWidget* either_;
  QPlainTextEdit* text_;
  bool readable_ = true;  ///< the text is a JSON object
  InnerView* picture_;
};

}  // namespace ww::library
