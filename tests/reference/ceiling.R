# Values from R for tests/grading/ceiling.test.ts.
# Run: Rscript tests/reference/ceiling.R > tests/reference/ceiling.json
# Logistic regression of bars held on ln T: with the prior flat and 0.98 made 1, held ~ 1/(1 + exp(b ln(T/T50))),
# so b is minus the slope and ln T50 the intercept over b.
cases <- list(
  list(bpm = c(70, 80, 90, 100, 110, 120), bars = c(8, 8, 8, 8, 8, 8), held = c(8, 7, 6, 5, 2, 1)),
  list(bpm = c(60, 84, 96, 104), bars = c(12, 20, 16, 8), held = c(11, 17, 10, 2)),
  list(bpm = c(120, 126, 132, 138, 144), bars = c(4, 4, 4, 4, 4), held = c(3, 4, 2, 2, 1)))
fitted <- vapply(cases, function(k) {
  fit <- glm(cbind(held, bars - held) ~ log(bpm), family = binomial, data = k, control = glm.control(epsilon = 1e-14, maxit = 100))
  b <- -coef(fit)[[2]]
  paste0("{\"bpm\":[", paste(k$bpm, collapse = ","), "],\"bars\":[", paste(k$bars, collapse = ","), "],\"held\":[",
         paste(k$held, collapse = ","), "],\"lnT50\":", format(coef(fit)[[1]] / b, digits = 15), ",\"b\":", format(b, digits = 15),
         ",\"logLik\":", format(sum(with(k, held * log(fitted(fit)) + (bars - held) * log(1 - fitted(fit)))), digits = 15), "}")
}, "")
cat("{\"source\":\"", R.version.string, ", glm\",\"cases\":[", paste(fitted, collapse = ","), "]}\n", sep = "")
