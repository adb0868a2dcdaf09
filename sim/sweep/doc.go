// Package sweep solves one case many times with some of its numbers changed: every combination of ranges and lists (a
// grid), or a Latin hypercube or scrambled Halton sample of ranges.
//
// A Manifest is the whole plan: the case itself, the axes, the sampling and its seed. Row i of a manifest is the same
// wherever it is solved, so rows may be shared out over any number of shards and threads and put together again (Merge)
// to the same bytes. A result file is CSV: lines that begin with # (caution, provenance), one line of column names with
// units, then one line a row. A row that cannot be solved is kept, with its reason and without numbers.
//
// # On a cluster
//
// A job array needs nothing but its own variables; the same script, run again, finishes what was killed:
//
//	annuloscope sweep plan functional --repair sinus-band --axis repair.1.shortening_mm=0:30:61 -o m.yaml
//	sbatch --array=1-8 --wrap 'annuloscope sweep run m.yaml --resume -o part-$SLURM_ARRAY_TASK_ID.csv'
//	annuloscope sweep merge part-*.csv -o all.csv
//
// Without a scheduler, with --shard: for i in 1 2 3 4; do annuloscope sweep run m.yaml --shard $i/4 --resume -o part-$i.csv & done; wait
//
// The package starts no goroutine and opens no file: the command line does both.
package sweep
