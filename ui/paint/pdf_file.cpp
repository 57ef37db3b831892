// SPDX-License-Identifier: GPL-3.0-or-later
#include "paint/pdf_file.h"

#include <QBuffer>
#include <QDateTime>
#include <QPdfWriter>
#include <exception>
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFPageDocumentHelper.hh>
#include <qpdf/QPDFWriter.hh>

#include "job/document_file.h"
#include "paint/report_painter.h"
#include "wording/sentences.h"

namespace ww::paint {

namespace {

QDateTime momentOf(const document::Report& report) {
  QDateTime at = QDateTime::fromString(QString::fromStdString(report.head.dated), Qt::ISODate);
  if (!at.isValid())
    at = QDateTime(QDate(2000, 1, 1), QTime(0, 0), Qt::UTC);  // a sheet without a visit has no date
  return at.toUTC();
}

QString titleOf(const document::Report& report, const wording::Language& language) {
  const QString place = QString::fromStdString(report.head.address);
  const QString kind = language.sentence("report.title");
  return place.isEmpty() ? kind : kind + QStringLiteral(", ") + place;
}

/// XMP that says part 1, conformance B, and the same title and dates as the document information.
QByteArray metadata(const QString& title, const QDateTime& at) {
  const QString date = at.toString(Qt::ISODate);
  return QStringLiteral(
             "<?xpacket begin=\"\xEF\xBB\xBF\" id=\"W5M0MpCehiHzreSzNTczkc9d\"?>\n"
             "<x:xmpmeta xmlns:x=\"adobe:ns:meta/\"><rdf:RDF "
             "xmlns:rdf=\"http://www.w3.org/1999/02/22-rdf-syntax-ns#\">\n"
             "<rdf:Description rdf:about=\"\" xmlns:dc=\"http://purl.org/dc/elements/1.1/\" "
             "xmlns:xmp=\"http://ns.adobe.com/xap/1.0/\" xmlns:pdf=\"http://ns.adobe.com/pdf/1.3/\" "
             "xmlns:pdfaid=\"http://www.aiim.org/pdfa/ns/id/\">\n"
             "<dc:title><rdf:Alt><rdf:li xml:lang=\"x-default\">%1</rdf:li></rdf:Alt></dc:title>\n"
             "<xmp:CreatorTool>Wirewright</xmp:CreatorTool><xmp:CreateDate>%2</xmp:CreateDate>"
             "<xmp:ModifyDate>%2</xmp:ModifyDate><pdf:Producer>Wirewright</pdf:Producer>\n"
             "<pdfaid:part>1</pdfaid:part><pdfaid:conformance>B</pdfaid:conformance>\n"
             "</rdf:Description></rdf:RDF></x:xmpmeta>\n<?xpacket end=\"w\"?>")
      .arg(title.toHtmlEscaped(), date)
      .toUtf8();
}

struct Rendered {
  QByteArray bytes;
  PaintedReport painted;
};

Rendered render(const document::Report& report, const sheet::Sheet& sheet, const equipment::Library& library,
                const wording::Language& language, PaperSize paper) {
  Rendered rendered;
  QBuffer buffer(&rendered.bytes);
  buffer.open(QIODevice::WriteOnly);
  QPdfWriter writer(&buffer);
  writer.setPdfVersion(QPagedPaintDevice::PdfVersion_A1b);
  writer.setResolution(kPaperDpi);
  writer.setTitle(titleOf(report, language));
  writer.setCreator(QStringLiteral("Wirewright"));
  writer.setDocumentXmpMetadata(metadata(titleOf(report, language), momentOf(report)));
  DevicePages sheets(writer);
  rendered.painted = paintReport(sheets, report, sheet, library, language, paper);
  return rendered;
}

void addBookmarks(QPDF& pdf, const std::vector<Bookmark>& bookmarks) {
  const auto pages = QPDFPageDocumentHelper(pdf).getAllPages();
  QPDFObjectHandle outlines = pdf.makeIndirectObject(QPDFObjectHandle::newDictionary());
  QPDFObjectHandle before;
  for (const Bookmark& bookmark : bookmarks) {
    QPDFObjectHandle item = pdf.makeIndirectObject(QPDFObjectHandle::newDictionary());
    item.replaceKey("/Title", QPDFObjectHandle::newUnicodeString(bookmark.title.toStdString()));
    item.replaceKey("/Parent", outlines);
    item.replaceKey("/Dest", QPDFObjectHandle::newArray({pages.at(size_t(bookmark.page)).getObjectHandle(),
                                                         QPDFObjectHandle::newName("/Fit")}));
    if (before.isInitialized()) {
      before.replaceKey("/Next", item);
      item.replaceKey("/Prev", before);
    } else {
      outlines.replaceKey("/First", item);
    }
    before = item;
  }
  if (!before.isInitialized()) return;
  outlines.replaceKey("/Type", QPDFObjectHandle::newName("/Outlines"));
  outlines.replaceKey("/Last", before);
  outlines.replaceKey("/Count", QPDFObjectHandle::newInteger(int(bookmarks.size())));
  pdf.getRoot().replaceKey("/Outlines", outlines);
}

/// Title, dates and producer agree with the XMP, and do not depend on the clock.
void setInformation(QPDF& pdf, const QString& title, const QDateTime& at) {
  const std::string date = at.toString(QStringLiteral("'D:'yyyyMMddHHmmss'Z'")).toStdString();
  QPDFObjectHandle information = pdf.getTrailer().getKey("/Info");
  information.replaceKey("/Title", QPDFObjectHandle::newUnicodeString(title.toStdString()));
  for (const char* key : {"/CreationDate", "/ModDate"})
    information.replaceKey(key, QPDFObjectHandle::newString(date));
  for (const char* key : {"/Producer", "/Creator"})
    information.replaceKey(key, QPDFObjectHandle::newString("Wirewright"));
}

std::string finished(const Rendered& rendered, const QString& title, const QDateTime& at) {
  QPDF pdf;
  pdf.processMemoryFile("report", rendered.bytes.constData(), size_t(rendered.bytes.size()));
  addBookmarks(pdf, rendered.painted.bookmarks);
  setInformation(pdf, title, at);
  pdf.getTrailer().removeKey("/ID");  // it was random; the writer makes one from the content
  QPDFWriter writer(pdf);
  writer.setOutputMemory();
  writer.setObjectStreamMode(qpdf_o_disable);
  writer.setDeterministicID(true);
  writer.setNewlineBeforeEndstream(true);
  writer.write();
  const auto buffer = writer.getBufferSharedPointer();
  return {reinterpret_cast<const char*>(buffer->getBuffer()), buffer->getSize()};
}

}  // namespace

PdfResult writePdf(const document::Report& report, const sheet::Sheet& sheet,
                   const equipment::Library& library, const wording::Language& language, PaperSize paper,
                   const QString& path) {
  const Rendered rendered = render(report, sheet, library, language, paper);
  std::string bytes;
  try {
    bytes = finished(rendered, titleOf(report, language), momentOf(report));
  } catch (const std::exception& error) {
    return {0, PdfFailure{PdfFailure::Reason::cannotRender, path, QString::fromUtf8(error.what())}};
  }
  if (const auto failed = job::saveFile(path.toStdString(), bytes)) {
    const auto reason = failed->step == job::SaveFailure::Step::rename ? PdfFailure::Reason::cannotRename
                                                                       : PdfFailure::Reason::cannotWrite;
    return {0, PdfFailure{reason, path, QString::fromStdString(failed->detail)}};
  }
  return {rendered.painted.pages, std::nullopt};
}

}  // namespace ww::paint
