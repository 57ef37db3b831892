// SPDX-License-Identifier: GPL-3.0-or-later
#include "library/profile_words.h"

#include "wording/names.h"
#include "wording/profile_text.h"

namespace ww::library {

namespace {

QString q(const std::string& text) { return QString::fromStdString(text); }

/// Tables and lists of one page.
class Page {
 public:
  Page(const wording::Language& language, const paint::Theme& theme, const equipment::Profile& profile)
      : language_(language), theme_(theme), profile_(profile) {}

  QString whole(const QStringList& logic) {
    terminals();
    elements();
    duties();
    settings();
    lines("nameplate", worded("nameplate", profile_.nameplate));
    inserts();
    cautions();
    lines("logic", logic);
    return html_;
  }

 private:
  QString say(const char* key, const wording::Args& args = {}) const {
    return language_.sentence(QStringLiteral("library.") + QLatin1String(key), args);
  }
  QString word(const char* kind, const std::string& id) const { return wording::word(language_, kind, id); }
  QStringList worded(const char* kind, const std::vector<std::string>& ids) const {
    QStringList words;
    for (const std::string& id : ids) words << word(kind, id);
    return words;
  }

  void heading(const char* key) {
    html_ += QStringLiteral("<p style='margin:12px 0 4px 0'><b>%1</b></p>")
                 .arg(say((std::string("heading.") + key).c_str()).toHtmlEscaped());
  }
  /// Rows of cells; the first row is the heads.
  void table(const std::vector<QStringList>& rows) {
    // Kept as written, so that the blank between figure and unit does not break the line.
    html_ +=
        QStringLiteral("<table cellspacing='0' cellpadding='3' width='100%' style='white-space:pre-wrap'>");
    for (size_t row = 0; row < rows.size(); ++row) {
      html_ += QStringLiteral("<tr>");
      for (const QString& cell : rows[row])
        html_ +=
            row == 0
                ? QStringLiteral("<td style='color:%1'>%2</td>").arg(theme_.ink2.name(), cell.toHtmlEscaped())
                : QStringLiteral("<td>%1</td>").arg(cell.toHtmlEscaped());
      html_ += QStringLiteral("</tr>");
    }
    html_ += QStringLiteral("</table>");
  }
  void lines(const char* key, const QStringList& all) {
    if (all.isEmpty()) return;
    heading(key);
    for (const QString& line : all)
      html_ += QStringLiteral("<p style='margin:0 0 2px 0'>%1</p>").arg(line.toHtmlEscaped());
  }

  void terminals() {
    heading("terminals");
    std::vector<QStringList> rows{{say("column.terminal"), say("column.role"), say("column.purpose"), {}}};
    for (const equipment::Terminal& terminal : profile_.terminals) {
      QStringList printed;
      for (const auto& [value, text] : terminal.printedFor)
        if (!printed.contains(q(text))) printed << q(text);
      rows.push_back({q(terminal.id) + (printed.isEmpty() ? QString()
                                                          : QStringLiteral(" (%1)").arg(
                                                                printed.join(QStringLiteral(" / ")))),
                      wording::roleName(language_, terminal.role),
                      terminal.purpose.empty() ? QString() : word("purpose", terminal.purpose),
                      terminal.optional ? say("may-stay-empty") : QString()});
    }
    table(rows);
    for (const auto& group : profile_.joined) {
      QStringList names;
      for (const std::string& id : group) names << q(id);
      html_ += QStringLiteral("<p>%1</p>")
                   .arg(say("joined", {{"terminals", language_.list(names)}}).toHtmlEscaped());
    }
  }

  void elements() {
    if (profile_.elements.empty()) return;
    heading("elements");
    std::vector<QStringList> rows{
        {say("column.element"), say("column.between"), say("column.part"), say("column.figures")}};
    for (const equipment::Element& element : profile_.elements) {
      const QString named = word("part", element.id);
      rows.push_back(
          {named == q(element.id) ? named : QStringLiteral("%1 (%2)").arg(q(element.id), named),
           QStringLiteral("%1 – %2").arg(q(element.a), q(element.b)),
           wording::partKind(language_, element.part) +
               (element.partName.empty() ? QString() : QStringLiteral(" (%1)").arg(q(element.partName))),
           wording::partFigures(language_, element.part)});
    }
    table(rows);
    QStringList sources;
    for (const std::string& source : profile_.sources) sources << word("source", source);
    html_ +=
        QStringLiteral("<p style='color:%1'>%2</p>")
            .arg(theme_.ink2.name(), say("sources", {{"sources", language_.list(sources)}}).toHtmlEscaped());
  }

  void duties() {
    QStringList all;
    for (const equipment::Duty& duty : profile_.duties) {
      const std::string id = duty.speed.empty() ? duty.name : duty.name + ":" + duty.speed;
      all << wording::dutyName(language_, id);
    }
    lines("duties", all);
    all.clear();
    for (const equipment::Call& call : profile_.calls) all << wording::callName(language_, call.name);
    lines("calls", all);
  }

  void settings() {
    if (profile_.settings.empty()) return;
    heading("settings");
    std::vector<QStringList> rows{{say("column.setting"), say("column.choices"), say("column.standard")}};
    for (const equipment::Setting& setting : profile_.settings) {
      QStringList choices;
      for (const std::string& choice : setting.choices) choices << word("value", choice);
      rows.push_back({word("setting", setting.key),
                      choices.isEmpty() ? say("a-number") : choices.join(QStringLiteral(", ")),
                      word("value", setting.standard)});
    }
    table(rows);
  }

  void inserts() {
    QStringList all;
    for (const equipment::InsertPoint& point : profile_.insertPoints)
      all << QStringLiteral("@%1: %2").arg(q(point.name), q(point.note).replace(u'-', u' '));
    lines("inserts", all);
  }

  void cautions() {
    QStringList all;
    for (const std::string& caution : profile_.cautions) {
      const QString key = QStringLiteral("caution.%1.text").arg(q(caution));
      all << (language_.has(key) ? language_.sentence(key) : q(caution).replace(u'-', u' '));
    }
    lines("cautions", all);
  }

  const wording::Language& language_;
  const paint::Theme& theme_;
  const equipment::Profile& profile_;
  QString html_;
};

}  // namespace

QString profileHtml(const wording::Language& language, const paint::Theme& theme,
                    const equipment::Profile& profile, const QStringList& logic) {
  return Page(language, theme, profile).whole(logic);
}

QString searchTextOf(const wording::Language& language, const equipment::Profile& profile) {
  QStringList words{q(profile.id), wording::inLanguage(language, profile.title),
                    wording::kindName(language, profile.kind)};
  for (const equipment::Terminal& terminal : profile.terminals) words << q(terminal.id);
  for (const equipment::Duty& duty : profile.duties) words << wording::dutyName(language, duty.name);
  return words.join(u' ');
}

}  // namespace ww::library
