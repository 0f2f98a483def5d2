//! The same work on many things, by as many threads as are worth it.

use std::num::NonZero;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::thread::{available_parallelism, scope};

/// More threads than this only wait for the memory.
const THREADS_MAX: usize = 4;

/// Does the work on each thing; the answers are in the order of the things. Fewer than `few` are done one after the other;
/// else `batch` are taken at a time, so that a thread that is held up keeps nobody waiting long.
pub(crate) fn each<T: Sync, R: Send>(things: &[T], few: usize, batch: usize, work: impl Fn(&T) -> R + Sync) -> Vec<R> {
    let threads = available_parallelism().map_or(1, NonZero::get).min(THREADS_MAX);
    if threads == 1 || things.len() < few {
        return things.iter().map(work).collect();
    }
    let batches: Vec<&[T]> = things.chunks(batch).collect();
    let next = AtomicUsize::new(0);
    let take = || {
        let mut done: Vec<(usize, Vec<R>)> = Vec::new();
        loop {
            let at = next.fetch_add(1, Ordering::Relaxed);
            let Some(batch) = batches.get(at) else { return done };
            done.push((at, batch.iter().map(&work).collect()));
        }
    };
    let mut answers: Vec<Option<Vec<R>>> = Vec::new();
    answers.resize_with(batches.len(), || None);
    scope(|scope| {
        let others: Vec<_> = (1..threads).map(|_| scope.spawn(take)).collect();
        let own = take();
        let done = others.into_iter().flat_map(|other| other.join().unwrap_or_default()).chain(own);
        for (at, answer) in done {
            answers[at] = Some(answer);
        }
    });
    // What a thread could not finish is done here.
    let missing = |at: usize| batches[at].iter().map(&work).collect();
    answers.into_iter().enumerate().flat_map(|(at, answer)| answer.unwrap_or_else(|| missing(at))).collect()
}

#[cfg(test)]
mod tests {
    use super::each;

    #[test]
    fn the_answers_are_in_the_order_of_the_things() {
        for count in [0, 1, 15, 16, 17, 1000] {
            let things: Vec<usize> = (0..count).collect();
            for few in [0, 2000] {
                assert_eq!(each(&things, few, 16, |thing| thing * 3), things.iter().map(|t| t * 3).collect::<Vec<_>>());
            }
        }
    }
}
