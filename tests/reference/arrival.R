# How late each variation comes, for tests/grading/models/time-model/arrival.test.ts.
# Run: Rscript tests/reference/arrival.R > tests/reference/arrival.json
# Cells are bars' means by cycle (rows) and variation (columns), NA where a bar was not played. Effects and residual
# variance by lm(ms ~ cycle + variation); effects about their mean, each less the median of the others; the interval by
# t with the residual degrees of freedom, variance s2/C * (1 + kappa), kappa as grading.md section 5 has it (normal
# order statistics: the variance of the median of 1, 2, 3 is 1, 1/2, 0.4487).
set.seed(31)
case <- function(cells) {
  C <- nrow(cells); V <- ncol(cells)
  d <- data.frame(ms = as.vector(cells), cycle = factor(rep(1:C, V)), variation = factor(rep(1:V, each = C)))
  d <- d[!is.na(d$ms), ]
  fit <- lm(ms ~ cycle + variation, d)
  effects <- c(0, coef(fit)[paste0("variation", 2:V)]); effects <- effects - mean(effects)
  kappa <- if (V - 1 <= 3) c(1, 0.5, 0.449)[V - 1] else pi / (2 * (V - 1))
  half <- qt(0.95, fit$df.residual) * sqrt(summary(fit)$sigma^2 / C * (1 + kappa))
  value <- sapply(1:V, function(v) effects[v] - median(effects[-v]))
  row <- function(x) paste0("[", paste(ifelse(is.na(x), "null", format(x, digits = 15)), collapse = ","), "]")
  told <- paste(sapply(1:V, function(v) row(c(value[v], value[v] - half, value[v] + half))), collapse = ",")
  sprintf('{"cells":[%s],"told":[%s]}', paste(apply(cells, 1, row), collapse = ","), told)
}
made <- function(C, effects) {
  outer(rnorm(C, 0, 8), effects, "+") + matrix(rnorm(C * length(effects), 0, 4), C)
}
four <- made(6, c(0, 0, 25, 0))
holed <- made(5, c(3, -12, 0, 0, 5)); holed[5, 4:5] <- NA; holed[2, 1] <- NA
two <- made(4, c(0, 40))
cat(sprintf('{"source":"R %s, stats::lm","cases":{"four variations":%s,"five, three bars missing":%s,"two":%s}}\n',
  getRversion(), case(four), case(holed), case(two)))
