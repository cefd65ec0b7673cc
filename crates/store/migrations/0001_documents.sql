-- Documents and the journal of everything done to them.
-- Only what SQLite and PostgreSQL both understand: TEXT, BIGINT and BYTEA columns, no vendor functions.

CREATE TABLE document (
    id TEXT NOT NULL PRIMARY KEY,
    kind TEXT NOT NULL,
    revision BIGINT NOT NULL,
    body TEXT NOT NULL,
    created_at TEXT NOT NULL,
    changed_at TEXT NOT NULL,
    deleted_at TEXT
);
CREATE INDEX document_by_kind ON document (kind, created_at, id);

CREATE TABLE entry (
    seq BIGINT NOT NULL PRIMARY KEY,
    at TEXT NOT NULL,
    words TEXT NOT NULL,
    kind TEXT NOT NULL,
    target BIGINT
);

-- What one entry did to one document. A document's revision is the number of its latest part.
CREATE TABLE part (
    document TEXT NOT NULL REFERENCES document (id) ON DELETE CASCADE,
    seq BIGINT NOT NULL REFERENCES entry (seq) ON DELETE CASCADE,
    changes TEXT NOT NULL,
    PRIMARY KEY (document, seq)
);
CREATE INDEX part_by_entry ON part (seq);

-- The last number given out; never goes down, even when entries are erased.
CREATE TABLE counter (
    name TEXT NOT NULL PRIMARY KEY,
    value BIGINT NOT NULL
);
INSERT INTO counter (name, value) VALUES ('seq', 0);

CREATE TABLE setting (
    name TEXT NOT NULL PRIMARY KEY,
    value TEXT NOT NULL
);
