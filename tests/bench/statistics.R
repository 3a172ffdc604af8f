# One task in R's survival on the lives that the bench wrote. Arguments: task, lives, file for the answers, columns.
# Prints {"reading", "seconds", "version"} as JSON; a task that is not listed prints {}.
arguments <- commandArgs(TRUE)
task <- arguments[1]
suppressPackageStartupMessages(library(survival))

known <- c('kaplanMeier', 'restrictedMean', 'logRank', 'cumulativeIncidence', 'cox', 'coxContinuous',
  'proportionalHazards', 'fitLife', 'weibull', 'weibullContinuous', 'weibullCluster')
if (!(task %in% known)) {
  cat('{}')
  quit()
}

rows <- as.numeric(arguments[5])
began <- proc.time()[['elapsed']]
names <- strsplit(arguments[4], ',')[[1]]
values <- readBin(arguments[2], 'double', rows * length(names))
d <- as.data.frame(matrix(values, nrow = rows, dimnames = list(NULL, names)))
rm(values)
d$group <- factor(d$group)
d$cause <- factor(d$cause)
d$row <- seq_len(rows)
reading <- proc.time()[['elapsed']] - began

twelve <- paste0('x', 1:12, collapse = ' + ')
eleven <- paste0(paste0('x', 1:11, collapse = ' + '), ' + load')
model <- function(left, right) as.formula(paste(left, '~', right))
late <- 'Surv(entry, exit, event)'
plain <- 'Surv(exit, event)'
byGroup <- function(fit, values) {
  place <- rep(seq_along(fit$strata), fit$strata)
  unlist(lapply(seq_along(fit$strata), function(k) unlist(lapply(values, function(value) value[place == k]))))
}
coxNumbers <- function(fit) c(coef(fit), sqrt(diag(vcov(fit))), fit$loglik[2], fit$concordance[['concordance']])
aftNumbers <- function(fit) c(coef(fit), sqrt(diag(vcov(fit)))[seq_along(coef(fit))], fit$loglik[2], fit$scale)
cox <- function(right) coxph(model(late, right), data = d)
aft <- function(right) survreg(model(plain, right), data = d)

run <- switch(task,
  kaplanMeier = function() survfit(model(late, 'group'), data = d, conf.type = 'log-log'),
  restrictedMean = function() survival:::survmean(survfit(model(late, 'group'), data = d), rmean = 1e5),
  logRank = function() survdiff(model(plain, 'group'), data = d),
  # With errors R's Aalen-Johansen would take the square of the rows.
  cumulativeIncidence = function()
    survfit(Surv(entry, exit, cause) ~ group, data = d, id = row, se.fit = FALSE),
  cox = function() cox(twelve),
  coxContinuous = function() cox(eleven),
  proportionalHazards = function() cox.zph(cox(twelve)),
  fitLife = function() aft('1'),
  weibull = function() aft(twelve),
  weibullContinuous = function() aft(eleven),
  weibullCluster = function() survreg(model(plain, twelve), data = d, cluster = vehicle, robust = TRUE))

answers <- function(fit) switch(task,
  kaplanMeier = byGroup(fit, list(fit$surv, fit$std.err * fit$surv, fit$lower, fit$upper)),
  restrictedMean = t(fit$matrix[, c('rmean', 'se(rmean)')]),
  logRank = c(fit$chisq, fit$obs, fit$exp, fit$var),
  cumulativeIncidence = byGroup(fit, list(fit$pstate[, 2], fit$pstate[, 3])),
  cox = coxNumbers(fit),
  coxContinuous = coxNumbers(fit),
  proportionalHazards = fit$table[, 'chisq'],
  fitLife = c(coef(fit), log(fit$scale), sqrt(diag(vcov(fit))), fit$loglik[2]),
  weibull = aftNumbers(fit),
  weibullContinuous = aftNumbers(fit),
  weibullCluster = c(coef(fit), sqrt(diag(vcov(fit)))[seq_along(coef(fit))]))

seconds <- c()
while (length(seconds) < 3 && sum(seconds) < 15) {
  gc(FALSE)
  fit <- NULL
  # Processor time, as on our side.
  began <- proc.time()
  fit <- run()
  seconds <- c(seconds, sum((proc.time() - began)[c('user.self', 'sys.self')]))
}
writeBin(as.double(answers(fit)), arguments[3])
cat(sprintf('{"reading": %.2f, "seconds": [%s], "version": "%s, survival %s"}', reading,
  paste(sprintf('%.3f', seconds), collapse = ', '), R.version.string, packageVersion('survival')))
