# Values from R for tests/grading/apart/listen-blind.test.ts.
# Run: Rscript tests/reference/binomial.R > tests/reference/binomial.json
rows <- list(c(7, 10), c(10, 10), c(0, 8), c(12, 20), c(5, 20), c(1, 1))
interval <- vapply(rows, function(k) {
  ends <- binom.test(k[1], k[2], conf.level = 0.9)$conf.int
  paste0("[", paste(c(format(k), format(ends[1], digits = 17), format(ends[2], digits = 17)), collapse = ","), "]")
}, "")
cat("{\"source\":\"", R.version.string, ", binom.test\",\"intervals\":[", paste(interval, collapse = ","), "]}\n", sep = "")
