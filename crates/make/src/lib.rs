//! From a drafted suit and a workroom to what a maker cuts, sews and buys: stitches, elastic, order of work, scraps, shopping.

mod buy;
mod choose;
mod class_shopping;
mod counted;
mod cut_list;
mod edge;
mod elastic;
mod job;
mod kind;
mod making;
mod model;
mod needle;
mod needs;
mod order;
mod plan;
mod quantity;
mod quote;
mod ratio;
mod sample;
mod say;
mod scrap;
mod shopping;
mod stitch;
mod thread;
mod timetable;
mod workroom;
mod worn;

pub use buy::{ElasticBuy, elastic_to_buy, latex_caution};
pub use choose::{Evidence, Reach, RunnerUp, StitchChoice, StitchSetting};
pub use class_shopping::{
    ClassLine, ClassPerson, ClassShopping, ClassShoppingInput, ClothInBag, LaidTogether, class_shopping,
};
pub use cut_list::cut_list;
pub use edge::{EdgeElastic, RingCheck, edge_elastics};
pub use elastic::{LAP_JOIN, elastic};
pub use job::{Job, SeamClass};
pub use kind::{Chlorine, ElasticChoice, ElasticError, ElasticKind, KindFacts, Latex, Narrowing};
pub use making::{Making, MakingInput, WouldAdd, making};
pub use model::{CRIMP_RELEASED, StitchGeometry, seam_extension, thread_ratio, width_over_length};
pub use needle::{ASSUMED_MASS, Needle, NeedlePoint, Through};
pub use needs::{MOVEMENT, Need, Needs, SEAM_FACTOR, WornStretch};
pub use order::{Phase, SideUp, Step, Touch};
pub use plan::{CutRow, ElasticArc, ElasticPlan};
pub use quantity::{
    ASSUMED_WIDTH, CHAIN, CLOTH_TESTS, ClothBasis, ClothUse, CupSize, RETHREAD, TAIL, TEST_STRIPS,
    THREAD_WASTE, ThreadPlace, ThreadUse, USAGE_WITHOUT_LAY, cloth_uses, cup_size, thread_uses,
};
pub use quote::{Quote, QuoteError, QuoteTerms, quote};
pub use ratio::{EdgeRule, RatioBand, Source, rule_for};
pub use sample::{ElasticTest, IronTest, SampleBook, SampleError, SeamSample, Verdict, Wet, WetTest};
pub use say::{Arg, Say};
pub use scrap::{Scrap, ScrapKind};
pub use shopping::{Item, Price, Shopping, ShoppingInput, ShoppingLine, Stock, cut_off, shopping};
pub use stitch::{Bulk, Stitch, StitchFacts, StitchFamily};
pub use thread::{Thread, ThreadFacts, ThreadStock};
pub use timetable::{ClassStep, ClassWork, Pace, Timed, Timetable, TimetableError, class_steps, timetable};
pub use workroom::{Foot, Machine, MachineKind, NeedleStock, OverlockThreads, Preset, Workroom};
pub use worn::{ASSUMED_K_NEWTON, EDGE_PRESSURE_STOP_KPA, EDGE_PRESSURE_WATCH_KPA};
