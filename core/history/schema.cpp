// SPDX-License-Identifier: GPL-3.0-or-later
#include "history/schema.h"

#include <array>

namespace ww::history {

namespace {

// The documents: what cannot be derived from anything else.
constexpr const char* kDocuments = R"sql(
CREATE TABLE job(
  key INTEGER PRIMARY KEY,
  id TEXT NOT NULL,
  sibling INTEGER NOT NULL,
  created TEXT NOT NULL,
  version INTEGER NOT NULL,
  head INTEGER REFERENCES revision(key),
  binned TEXT,
  UNIQUE(id, sibling)) STRICT;
CREATE TABLE revision(
  key INTEGER PRIMARY KEY,
  job INTEGER NOT NULL REFERENCES job(key),
  parent INTEGER REFERENCES revision(key),
  body BLOB NOT NULL,
  sha256 TEXT NOT NULL,
  closed TEXT NOT NULL,
  program TEXT NOT NULL) STRICT;
CREATE INDEX revision_job ON revision(job);
CREATE TABLE signature(
  revision INTEGER NOT NULL REFERENCES revision(key),
  id TEXT NOT NULL,
  role TEXT NOT NULL,
  name TEXT NOT NULL,
  at TEXT NOT NULL,
  form TEXT NOT NULL,
  PRIMARY KEY(revision, id)) STRICT;
CREATE TABLE draft(
  job INTEGER PRIMARY KEY REFERENCES job(key),
  body BLOB NOT NULL,
  saved TEXT NOT NULL) STRICT;
CREATE TRIGGER revision_stands BEFORE UPDATE ON revision
  BEGIN SELECT RAISE(ABORT, 'a closed revision is not changed'); END;
CREATE TRIGGER revision_stays BEFORE DELETE ON revision
  BEGIN SELECT RAISE(ABORT, 'a closed revision is not removed'); END;
CREATE TRIGGER revision_once BEFORE INSERT ON revision
  WHEN EXISTS(SELECT 1 FROM revision WHERE key = NEW.key)
  BEGIN SELECT RAISE(ABORT, 'a closed revision is not replaced'); END;
CREATE TRIGGER signature_stands BEFORE UPDATE ON signature
  BEGIN SELECT RAISE(ABORT, 'a signature is not changed'); END;
CREATE TRIGGER signature_stays BEFORE DELETE ON signature
  BEGIN SELECT RAISE(ABORT, 'a signature is not removed'); END;
CREATE TRIGGER signature_once BEFORE INSERT ON signature
  WHEN EXISTS(SELECT 1 FROM signature WHERE revision = NEW.revision AND id = NEW.id)
  BEGIN SELECT RAISE(ABORT, 'a signature is not replaced'); END;
)sql";

// What is derived from the bodies, and who has what open. The rowid of search, and recency, is the day of the
// visit in the upper and the key of the job in the lower 32 bits: newest first without sorting.
constexpr const char* kDerived = R"sql(
CREATE TABLE meta(name TEXT PRIMARY KEY, value TEXT NOT NULL) STRICT;
CREATE TABLE site(
  key INTEGER PRIMARY KEY,
  place TEXT NOT NULL UNIQUE) STRICT;
CREATE TABLE listing(
  job INTEGER PRIMARY KEY REFERENCES job(key),
  recency INTEGER NOT NULL UNIQUE,
  site INTEGER REFERENCES site(key),
  number TEXT NOT NULL,
  letter TEXT NOT NULL,
  address TEXT NOT NULL,
  unit TEXT NOT NULL,
  city TEXT NOT NULL,
  customer TEXT NOT NULL,
  phone TEXT NOT NULL,
  day TEXT NOT NULL,
  system TEXT NOT NULL,
  state TEXT NOT NULL,
  in_work INTEGER NOT NULL,
  stage TEXT NOT NULL,
  installer TEXT NOT NULL,
  open INTEGER NOT NULL) STRICT;
CREATE INDEX listing_site ON listing(site, recency);
CREATE INDEX listing_number ON listing(number);
CREATE INDEX listing_kept ON listing(recency) WHERE state <> 'binned';
CREATE INDEX listing_system ON listing(system);
CREATE INDEX listing_installer ON listing(installer);
CREATE TABLE reading(
  job INTEGER NOT NULL REFERENCES job(key),
  id TEXT NOT NULL,
  place INTEGER NOT NULL,
  step TEXT NOT NULL,
  unit TEXT NOT NULL,
  value REAL,
  open_line INTEGER NOT NULL,
  low REAL,
  high REAL,
  counts INTEGER NOT NULL,
  PRIMARY KEY(job, id)) STRICT, WITHOUT ROWID;
CREATE TABLE finding(
  job INTEGER NOT NULL REFERENCES job(key),
  key TEXT NOT NULL,
  severity INTEGER NOT NULL,
  accepted INTEGER NOT NULL,
  PRIMARY KEY(job, key)) STRICT, WITHOUT ROWID;
CREATE TABLE word(
  key INTEGER PRIMARY KEY,
  term TEXT NOT NULL UNIQUE) STRICT;
CREATE TABLE editor(
  job INTEGER NOT NULL REFERENCES job(key),
  process TEXT NOT NULL,
  boot TEXT NOT NULL,
  pid INTEGER NOT NULL,
  who TEXT NOT NULL,
  since TEXT NOT NULL,
  beat INTEGER NOT NULL,
  PRIMARY KEY(job, process)) STRICT;
CREATE VIRTUAL TABLE search USING fts5(
  address, customer, numbers, facets, prefix = '1 2 3', tokenize = 'unicode61 remove_diacritics 2');
)sql";

constexpr std::array kSteps{kDocuments, kDerived};

}  // namespace

std::span<const char* const> schemaSteps() { return kSteps; }

}  // namespace ww::history
