# Second opinion for the statistics: invented data and what R says of them.
# R 4.2.2 with package survival 3.5-3 (Debian 12: r-base-core, r-cran-survival). Run from the project root:
#   Rscript src/test/r/reference.R src/test/resources/firmlever/comeback/statistics
# Writes lives.csv (time, failed, group), histories.csv (unit, end, returns…) and expected.csv (name, row, value).
suppressMessages(library(survival))
folder <- commandArgs(trailingOnly = TRUE)[1]
set.seed(417)
results <- NULL
say <- function(name, values) {
  results <<- rbind(results, data.frame(name, row = seq_along(values) - 1, value = sprintf("%.15g", values)))
}

# 140 units in four groups of different size and pace, whole days (many ties), a third lost from sight.
group <- sample(1:4, 140, replace = TRUE, prob = c(.4, .3, .2, .1))
fails <- ceiling(rweibull(140, 1.4, c(22, 30, 18, 26)[group]))
lost <- ceiling(runif(140, 5, 60))
lives <- data.frame(time = pmin(fails, lost), failed = as.integer(fails <= lost), group)
write.table(lives, file.path(folder, "lives.csv"), sep = ",", row.names = FALSE, quote = FALSE)
curve <- survfit(Surv(time, failed) ~ 1, lives, conf.type = "plain")
loglog <- survfit(Surv(time, failed) ~ 1, lives, conf.type = "log-log", conf.int = .9)
say("survival-time", curve$time); say("survival", curve$surv); say("survival-error", curve$surv * curve$std.err)
say("plain-low", curve$lower); say("plain-high", curve$upper)
say("log-log-low-90", loglog$lower); say("log-log-high-90", loglog$upper)
test <- survdiff(Surv(time, failed) ~ group, lives)
say("log-rank-expected", test$exp); say("log-rank-variance", diag(test$var))
say("log-rank", c(test$chisq, length(test$n) - 1, pchisq(test$chisq, length(test$n) - 1, lower.tail = FALSE)))
fit <- survreg(Surv(time, failed) ~ 1, lives, control = survreg.control(rel.tolerance = 1e-14, maxiter = 100))
say("weibull", c(1 / fit$scale, exp(coef(fit)), fit$loglik[1]))
# R's second parameter is -ln shape: the covariance changes its sign.
say("weibull-log-variances", c(fit$var[2, 2], fit$var[1, 1], -fit$var[1, 2]))

# 60 units that may return again and again; some are bad.
long <- NULL
lines <- "unit,end,returns"
for (unit in 1:60) {
  end <- sample(20:200, 1)
  times <- sort(unique(ceiling(runif(rpois(1, end / 60 * rgamma(1, 1.5, 1.5)), 0, end))))
  lines <- c(lines, paste(c(unit, end, times), collapse = ","))
  stops <- sort(unique(c(times, end)))
  long <- rbind(long, data.frame(unit, start = c(0, head(stops, -1)), stop = stops, event = as.integer(stops %in% times)))
}
writeLines(lines, file.path(folder, "histories.csv"))
mcf <- survfit(Surv(start, stop, event) ~ 1, long, id = unit)
keep <- mcf$n.event > 0
say("returns-time", mcf$time[keep]); say("returns-mean", mcf$cumhaz[keep]); say("returns-error", mcf$std.chaz[keep])

# Tests of counts: rows are events and trials of one, events and trials of the other.
tables <- rbind(c(3, 20, 30, 430), c(9, 29, 40, 611), c(0, 15, 12, 88), c(25, 260, 61, 377))
say("fisher", apply(tables, 1, function(t) fisher.test(rbind(c(t[1], t[2] - t[1]), c(t[3], t[4] - t[3])))$p.value))
say("binomial", apply(tables, 1, function(t) binom.test(t[1], t[2], t[3] / t[4])$p.value))
say("poisson", apply(tables, 1, function(t) poisson.test(t[c(1, 3)], t[c(2, 4)])$p.value))
say("wilson-low", apply(tables, 1, function(t) prop.test(t[1], t[2], correct = FALSE)$conf.int[1]))
say("wilson-high", apply(tables, 1, function(t) prop.test(t[1], t[2], correct = FALSE)$conf.int[2]))
say("exact-low", apply(tables, 1, function(t) binom.test(t[1], t[2])$conf.int[1]))
say("exact-high", apply(tables, 1, function(t) binom.test(t[1], t[2])$conf.int[2]))
chances <- round(c(runif(12), runif(8)^4), 3)
say("chances", chances); say("chances-adjusted", p.adjust(chances, "BH"))
write.table(results, file.path(folder, "expected.csv"), sep = ",", row.names = FALSE, quote = FALSE)
