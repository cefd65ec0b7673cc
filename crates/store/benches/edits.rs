//! How long one acknowledged edit takes, alone and from eight tasks at once, and what reading back costs.
//!
//! Each edit waits for the disk, so this measures the disk as much as the store.

use serde_json::json;
use store::{DocumentEdit, Edit, Kind, Options, Set, SqliteStore, Store};
use tempfile::TempDir;
use tokio::runtime::Runtime;

fn main() {
    divan::main();
}

fn workroom(runtime: &Runtime) -> (TempDir, SqliteStore) {
    let folder = tempfile::tempdir().expect("a passing folder");
    let store = runtime
        .block_on(SqliteStore::open(folder.path(), Options::default()))
        .expect("an open store");
    (folder, store)
}

async fn edit_often(store: &SqliteStore, task: usize, times: usize) {
    let body = json!({"girths": {"waist": 0}, "notes": "x".repeat(4_000)});
    let document = store.create(Kind::Wearer, body, "").await.expect("a document");
    let mut base = document.revision;
    for n in 1..=times {
        let changes = vec![Set {
            path: "girths.waist".into(),
            value: Some(json!(n * 10 + task)),
        }];
        let parts = vec![DocumentEdit {
            id: document.id.clone(),
            base,
            changes,
        }];
        let edited = store
            .edit(Edit {
                parts,
                words: "measure".into(),
            })
            .await
            .expect("an edit");
        base = edited.entry.expect("an entry");
    }
}

#[divan::bench(args = [1, 8], sample_count = 5, sample_size = 1)]
fn four_hundred_edits(bencher: divan::Bencher<'_, '_>, tasks: usize) {
    let runtime = Runtime::new().expect("a runtime");
    bencher
        .with_inputs(|| workroom(&runtime))
        .counter(divan::counter::ItemsCount::new(400_u32))
        .bench_values(|(folder, store)| {
            runtime.block_on(async {
                let running: Vec<_> = (0..tasks)
                    .map(|task| {
                        let store = store.clone();
                        tokio::spawn(async move { edit_often(&store, task, 400 / tasks).await })
                    })
                    .collect();
                for one in running {
                    one.await.expect("a finished task");
                }
            });
            (folder, store)
        });
}

#[divan::bench(sample_count = 20)]
fn body_four_hundred_edits_ago(bencher: divan::Bencher<'_, '_>) {
    let runtime = Runtime::new().expect("a runtime");
    let (_folder, store) = workroom(&runtime);
    runtime.block_on(edit_often(&store, 0, 400));
    let document = runtime
        .block_on(store.list(Kind::Wearer))
        .expect("a list")
        .remove(0);
    bencher.bench(|| runtime.block_on(store.body_at(&document.id, 1)).expect("a body"));
}
