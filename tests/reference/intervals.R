# Values from R for tests/grading/{statistics,intervals}.test.ts.
# Run: Rscript tests/reference/intervals.R > tests/reference/intervals.json
# R's own t.test, binom.test, qt, qbeta, pbinom, mad, lm, acf; DeLong's interval from package pROC (r-cran-proc).
suppressMessages(library(pROC))
text <- function(x) {
  if (is.list(x)) {
    parts <- vapply(x, text, "")
    if (is.null(names(x))) return(paste0("[", paste(parts, collapse = ","), "]"))
    return(paste0("{", paste0("\"", names(x), "\":", parts, collapse = ","), "}"))
  }
  if (is.character(x)) return(paste0("\"", x, "\""))
  numbers <- vapply(x, function(v) format(v, digits = 17), "")
  if (length(x) == 1 && is.null(attr(x, "many"))) numbers
  else paste0("[", paste(numbers, collapse = ","), "]")
}
many <- function(x) { x <- as.numeric(x); attr(x, "many") <- TRUE; x }

set.seed(20)
velocity <- function(n, mean, sd) many(pmin(127, pmax(1, round(rnorm(n, mean, sd)))))
level <- function(v) 40 * log10(v / 127)

quantiles <- expand.grid(p = c(0.6, 0.95, 0.975, 0.999), df = c(1, 2, 3.5, 9, 17.7765, 63, 1000, 28799))
betas <- list(c(0.05, 1, 10), c(0.95, 3, 8), c(0.05, 253, 4), c(0.95, 28700, 101), c(0.5, 0.5, 0.5))
tails <- list(c(10, 0.5, 9), c(63, 0.4, 32), c(4999, 0.52, 2500), c(200, 0.01, 101))

delong <- function(accents, softs) {
  r <- roc(controls = softs, cases = accents, direction = "<", quiet = TRUE)
  list(accents = many(accents), softs = many(softs), auc = as.numeric(auc(r)), variance = var(r, method = "delong"),
       interval = many(as.numeric(ci.auc(r, conf.level = 0.9, method = "delong"))[c(1, 3)]))
}
x <- c(.7, -1.6, -.2, -1.2, -.1, 3.4, 3.7, .8, 0, 2)
y <- c(1.9, .8, 1.1, .1, -.1, 4.4, 5.5, 1.6, 4.6, 3.4)
groups <- lapply(c(8, 12, 5, 20), function(n) many(rnorm(n, runif(1, -8, 8), 7)))
pooled <- data.frame(value = unlist(groups), group = factor(rep(seq_along(groups), lengths(groups))))
levels_ <- list(velocity(15, 40, 9), velocity(64, 38, 7), velocity(1, 50, 0))

cat(text(list(
  source = paste(R.version.string, "and pROC", as.character(packageVersion("pROC"))),
  t = lapply(seq_len(nrow(quantiles)), function(i) { q <- quantiles[i, ]; many(c(q$p, q$df, qt(q$p, q$df))) }),
  normal = lapply(c(0.001, 0.05, 0.3, 0.75, 0.95, 0.9999), function(p) many(c(p, qnorm(p)))),
  beta = lapply(betas, function(b) many(c(b, qbeta(b[1], b[2], b[3])))),
  tail = lapply(tails, function(b) many(c(b, pbinom(b[3] - 1, b[1], b[2], lower.tail = FALSE)))),
  mad = lapply(levels_, function(v) list(velocities = v, median = median(level(v)), mad = mad(level(v)))),
  lag1 = list(values = many(nhtemp), r = acf(nhtemp, plot = FALSE)$acf[2], sd = sd(nhtemp), mean = mean(nhtemp)),
  mean = list(values = many(y), interval = many(t.test(y, conf.level = 0.9)$conf.int)),
  welch = list(list(a = many(x), b = many(y), interval = many(t.test(x, y, conf.level = 0.9)$conf.int)),
               list(a = groups[[1]], b = groups[[4]],
                    interval = many(t.test(groups[[1]], groups[[4]], conf.level = 0.9)$conf.int))),
  proportion = lapply(list(c(253, 256), c(256, 256), c(0, 12), c(7, 10), c(28700, 28800)), function(k)
    many(c(k, binom.test(k[1], k[2], conf.level = 0.9)$conf.int))),
  delong = list(delong(y, x), delong(c(19, 22, 16, 29, 24), c(20, 11, 17, 12)),
                delong(velocity(64, 70, 12), velocity(192, 45, 9)), delong(velocity(9, 60, 9), velocity(40, 40, 9))),
  pooled = list(groups = groups, sd = sigma(lm(value ~ group, pooled)))
)), "\n", sep = "")
