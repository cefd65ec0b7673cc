//! Points that are sewn together become one vertex.

/// Sets of points, each with its least member as root.
pub(super) struct Weld(Vec<usize>);

impl Weld {
    /// Points `0..count`, none joined.
    pub(super) fn new(count: usize) -> Weld {
        Weld((0..count).collect())
    }

    /// Joins two points.
    pub(super) fn join(&mut self, a: usize, b: usize) {
        let (a, b) = (self.root(a), self.root(b));
        self.0[a.max(b)] = a.min(b);
    }

    /// The number of each point's vertex, in the order of first points, and how many vertices there are.
    pub(super) fn numbers(mut self) -> (Vec<usize>, usize) {
        let mut number_of = vec![usize::MAX; self.0.len()];
        let mut count = 0;
        for v in 0..number_of.len() {
            let root = self.root(v);
            if number_of[root] == usize::MAX {
                number_of[root] = count;
                count += 1;
            }
            number_of[v] = number_of[root];
        }
        (number_of, count)
    }

    fn root(&mut self, v: usize) -> usize {
        let mut root = v;
        while self.0[root] != root {
            root = self.0[root];
        }
        let mut here = v;
        while self.0[here] != root {
            here = std::mem::replace(&mut self.0[here], root);
        }
        root
    }
}
