-- What hangs on documents without being edited, and who may come in.

CREATE TABLE version (
    suit TEXT NOT NULL REFERENCES document (id) ON DELETE CASCADE,
    number BIGINT NOT NULL,
    body TEXT NOT NULL,
    text TEXT NOT NULL,
    words TEXT NOT NULL,
    at TEXT NOT NULL,
    PRIMARY KEY (suit, number)
);

CREATE TABLE photo (
    id TEXT NOT NULL PRIMARY KEY,
    owner TEXT NOT NULL REFERENCES document (id) ON DELETE CASCADE,
    mime TEXT NOT NULL,
    at TEXT NOT NULL,
    bytes BYTEA NOT NULL
);
CREATE INDEX photo_by_owner ON photo (owner, at, id);

CREATE TABLE session (
    token_hash TEXT NOT NULL PRIMARY KEY,
    name TEXT NOT NULL,
    created_at TEXT NOT NULL,
    last_seen TEXT NOT NULL
);
