//! The making plan of a suit for the machines of its workroom, and what may be said of those machines.

use std::sync::Arc;

use make::{Making, Workroom};

use crate::document::{self, Worked};
use crate::order::Order;

/// A plan with the machines it is for.
#[derive(Clone, Debug)]
pub(in crate::view) struct Planned {
    plan: Arc<document::Planned>,
    /// Its machines, needles and threads.
    pub(in crate::view) workroom: Workroom,
    /// No machine is written down: a household zigzag machine stands in for them.
    pub(in crate::view) is_assumed: bool,
}

impl Planned {
    /// Stitches, steps, scraps, elastic.
    pub(in crate::view) fn making(&self) -> &Making {
        &self.plan.making
    }
}

/// The plan of a suit in its own workroom; `None` while there is no order.
pub(in crate::view) fn planned(worked: &Worked) -> Option<(&Order, Planned)> {
    let room = &worked.room.room;
    let planned = Planned {
        plan: worked.plan()?,
        workroom: room.workroom.clone(),
        is_assumed: room.is_assumed,
    };
    Some((worked.order.as_ref()?, planned))
}

/// The plan in another workroom.
#[cfg(test)]
pub(in crate::view) fn planned_in<'a>(
    worked: &'a Worked,
    room: &crate::workroom_file::Room,
) -> Option<(&'a Order, Planned)> {
    let (order, file) = (worked.order.as_ref()?, worked.file.as_ref()?);
    let (making, shopping) = crate::hand_out::plan_of(file, order, room);
    let planned = Planned {
        plan: Arc::new(document::Planned { making, shopping }),
        workroom: room.workroom.clone(),
        is_assumed: room.is_assumed,
    };
    Some((order, planned))
}
