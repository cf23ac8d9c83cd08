# Rebuilds reliability-values.json: Rscript tests/references/reliability/generate.R > tests/references/reliability/reliability-values.json
# Needs R with the package survival (r-base-core and r-cran-survival on Debian). No other package, no network.
suppressPackageStartupMessages(library(survival))
options(digits = 15)

# ---- a small JSON writer ------------------------------------------------------------------------------------
emit <- function(x) {
  if (is.null(x)) return("null")
  if (is.list(x)) {
    keys <- names(x)
    parts <- vapply(seq_along(x), function(i) emit(x[[i]]), "")
    if (is.null(keys)) return(paste0("[", paste(parts, collapse = ", "), "]"))
    return(paste0("{", paste0("\"", keys, "\": ", parts, collapse = ",\n"), "}"))
  }
  if (is.matrix(x)) return(paste0("[", paste(apply(x, 1, function(r) emit(unname(r))), collapse = ", "), "]"))
  one <- function(v) {
    if (is.character(v)) return(paste0("\"", v, "\""))
    if (is.na(v)) return("null")
    if (is.infinite(v)) return("\"Infinity\"")
    format(as.numeric(v), digits = 15, trim = TRUE)
  }
  v <- vapply(unname(x), one, "")
  if (length(v) == 1) v else paste0("[", paste(v, collapse = ", "), "]")
}
list1 <- function(x) lapply(x, identity) # keeps a vector of length one an array

# ---- parametric fits ------------------------------------------------------------------------------------------
parametric <- function(formula, data, dist = "weibull", weights = NULL, probabilities = NULL) {
  data$case <- if (is.null(weights)) rep(1, nrow(data)) else weights
  fit <- survreg(formula, data, weights = case, dist = dist,
    control = survreg.control(rel.tolerance = 1e-12, maxiter = 200))
  out <- list(coefficients = list1(unname(coef(fit))), scale = fit$scale, logLikelihood = fit$loglik[2],
    covariance = fit$var)
  if (!is.null(probabilities)) {
    q <- predict(fit, newdata = data[1, , drop = FALSE], type = "uquantile", p = probabilities, se.fit = TRUE)
    out$quantiles <- list(probability = probabilities, logTime = as.vector(q$fit), logTimeSe = as.vector(q$se.fit))
  }
  out
}
probabilities <- c(.01, .05, .1, .5)
exact <- function(time, status) data.frame(time = time, status = status)
rightCensored <- Surv(time, status) ~ 1

nist <- exact(c(54, 187, 216, 240, 244, 335, 361, 373, 375, 386, rep(500, 10)), rep(1:0, each = 10))
shocks <- exact(
  c(6700, 6950, 7820, 8790, 9120, 9660, 9820, 11310, 11690, 11850, 11880, 12140, 12200, 12870, 13150, 13330, 13470,
    14040, 14300, 17520, 17540, 17890, 18450, 18960, 18980, 19410, 20100, 20100, 20150, 20320, 20900, 22700, 23490,
    26510, 27410, 27490, 27890, 28100),
  c(1, 0, 0, 0, 1, 0, 0, 0, 0, 0, 0, 0, 1, 0, 1, 0, 0, 0, 1, 1, 0, 0, 0, 0, 0, 0, 1, 0, 0, 0, 1, 1, 0, 1, 0, 1, 0, 0))
cage <- exact(
  c(50, 150, 230, 250, 334, 350, 423, 450, 550, 650, 750, 850, 950, 990, 1009, 1050, 1150, 1250, 1350, 1450, 1510,
    1550, 1650, 1850, 2050),
  c(0, 0, 1, 0, 1, 0, 1, 0, 0, 0, 0, 0, 0, 1, 1, 0, 0, 0, 0, 0, 1, 0, 0, 0, 0))
cageCount <- c(288, 148, 1, 124, 1, 111, 1, 106, 99, 110, 114, 119, 127, 1, 1, 123, 93, 47, 41, 27, 1, 11, 6, 1, 2)

genfanData <- exact(genfan$hours, genfan$status)
imotorData <- data.frame(time = imotor$time, status = imotor$status, temperature = imotor$temp)
capacitorData <- data.frame(time = capacitor$time, status = capacitor$status,
  temperature = capacitor$temperature, voltage = capacitor$voltage)

turbineLow <- c(rep(NA, 11), turbine$hours); turbineHigh <- c(turbine$hours, rep(NA, 11))
turbineCount <- c(turbine$failed, turbine$inspected - turbine$failed)
keep <- turbineCount > 0
turbineData <- data.frame(low = turbineLow[keep], high = turbineHigh[keep])
cracksData <- data.frame(low = c(NA, cracks$days), high = c(cracks$days, NA))
cracksCount <- c(cracks$fail, 167 - sum(cracks$fail))
interval <- Surv(low, high, type = "interval2") ~ 1

cure <- na.omit(lung[, c("time", "status", "age", "sex", "ph.ecog")])
cure$status <- cure$status - 1
names(cure)[5] <- "ecog"

withData <- function(data, fit, ...) c(list(data = as.list(data)), fit, list(...))
parametricPart <- list(
  nistWeibull = withData(nist, parametric(rightCensored, nist, probabilities = probabilities),
    source = "NIST/SEMATECH e-Handbook of Statistical Methods, 8.4.1.3"),
  nistLognormal = parametric(rightCensored, nist, "lognormal"),
  shockAbsorbers = withData(shocks, parametric(rightCensored, shocks, probabilities = probabilities),
    source = "Meeker and Escobar, Statistical Methods for Reliability Data, table C.2 (distance in km)"),
  shockAbsorbersLognormal = parametric(rightCensored, shocks, "lognormal", probabilities = probabilities),
  bearingCage = withData(data.frame(cage, count = cageCount),
    parametric(rightCensored, cage, weights = cageCount, probabilities = probabilities),
    source = "Abernethy, The New Weibull Handbook; Meeker and Escobar, table C.2 (hours)"),
  genfan = withData(genfanData, parametric(rightCensored, genfanData, probabilities = probabilities),
    source = "Nelson, diesel generator fans, R survival::genfan"),
  genfanLognormal = parametric(rightCensored, genfanData, "lognormal", probabilities = probabilities),
  genfanExponential = parametric(rightCensored, genfanData, "exponential", probabilities = probabilities),
  imotor = withData(imotorData, parametric(Surv(time, status) ~ temperature, imotorData),
    source = "Nelson and Hahn, motorette insulation, R survival::imotor"),
  capacitor = withData(capacitorData, parametric(Surv(time, status) ~ temperature + voltage, capacitorData),
    source = "Meeker and Escobar, glass capacitors, R survival::capacitor"),
  turbine = c(list(hours = turbine$hours, inspected = turbine$inspected, failed = turbine$failed),
    parametric(interval, turbineData, weights = turbineCount[keep]),
    source = "Nelson, turbine wheels, R survival::turbine (unit 100 h)"),
  turbineLognormal = parametric(interval, turbineData, "lognormal", weights = turbineCount[keep]),
  cracks = c(list(days = cracks$days, failed = cracks$fail, parts = 167),
    parametric(interval, cracksData, weights = cracksCount),
    source = "Meeker and Escobar, cracks found at inspections, R survival::cracks"),
  lungWeibull = parametric(Surv(time, status) ~ age + sex + ecog, cure),
  lungLognormal = parametric(Surv(time, status) ~ age + sex + ecog, cure, "lognormal"))
weibayes <- lapply(c(1.5, 2, 3), function(shape) {
  scale <- (sum(cageCount * cage$time^shape) / 6)^(1 / shape)
  list(shape = shape, scale = scale, b10 = scale * (-log(.9))^(1 / shape))
})
cageFit <- survreg(rightCensored, cage, weights = cageCount, control = survreg.control(rel.tolerance = 1e-12))
cageScale <- exp(coef(cageFit)); cageShape <- 1 / cageFit$scale
running <- cage$status == 0
nextHours <- 1 - exp((cage$time[running] / cageScale)^cageShape - ((cage$time[running] + 300) / cageScale)^cageShape)
parametricPart$bearingCageNext300h <- list(probability = as.vector(nextHours),
  expected = sum(cageCount[running] * nextHours))
parametricPart$bearingCageWeibayes <- weibayes

# bearing cage with a prior on log shape ~ N(log 2.5, 0.2), log scale flat: posterior on a fine grid
logShape <- seq(log(.4), log(12), length.out = 1201); logScale <- seq(log(1000), log(400000), length.out = 2001)
rows <- vapply(logShape, function(b) {
  shape <- exp(b)
  total <- log(sum(cageCount * (cage$time / 1000)^shape)) - shape * (logScale - log(1000))
  6 * (b - shape * logScale) + (shape - 1) * sum(log(cage$time[cage$status == 1])) - exp(total) +
    dnorm(b, log(2.5), .2, log = TRUE)
}, numeric(length(logScale)))
mass <- exp(rows - max(rows)); mass <- mass / sum(mass)
byShape <- colSums(mass)
gridQuantile <- function(value, weight, p) { o <- order(value); value[o][findInterval(p, cumsum(weight[o])) + 1] }
b10 <- outer(logScale, logShape, function(s, b) s + log(-log(.9)) / exp(b))
parametricPart$bearingCageMap <- list(prior = "log shape ~ N(log 2.5, 0.2), log scale flat",
  shapeQuantiles = gridQuantile(exp(logShape), byShape, c(.025, .5, .975)),
  b10Quantiles = exp(gridQuantile(as.vector(b10), as.vector(mass), c(.025, .5, .975))))

# ---- Kaplan-Meier, Cox, concordance, Brier ---------------------------------------------------------------------
km <- function(fit, times) { s <- summary(fit, times = times)
  list(time = times, atRisk = s$n.risk, survival = s$surv, se = s$std.err, low = s$lower, high = s$upper) }
nonparametric <- list(
  genfanLogLog = km(survfit(rightCensored, genfanData, conf.type = "log-log"), c(450, 1150, 4600, 8750)),
  amlMaintained = c(list(data = as.list(aml[aml$x == "Maintained", c("time", "status")])),
    km(survfit(Surv(time, status) ~ 1, aml[aml$x == "Maintained", ], conf.type = "log-log"), c(9, 13, 18, 23, 31, 34, 48))),
  lungLogLog = km(survfit(rightCensored, transform(lung, status = status - 1), conf.type = "log-log"), c(180, 365, 730)))
lungAll <- list(time = lung$time, status = lung$status - 1)
set.seed(1)
entered <- data.frame(entry = c(0, 2, 1, 4, 0, 3, 5, 2, 6, 1), time = c(5, 6, 4, 9, 7, 3.5, 8, 10, 11, 12),
  status = c(1, 0, 1, 1, 0, 1, 1, 0, 1, 0))
nonparametric$leftTruncated <- c(list(data = as.list(entered)),
  km(survfit(Surv(entry, time, status) ~ 1, entered, conf.type = "log-log"), c(4, 5, 8, 9, 11)))
nonparametric$cracksTurnbull <- list(survivalAfterInspection = 1 - cumsum(cracksCount[1:8]) / 167)
pooled <- function(failed, inspected) { # pool adjacent violators, weights = inspected
  block <- as.list(seq_along(failed))
  repeat {
    share <- vapply(block, function(b) sum(failed[b]) / sum(inspected[b]), 0)
    bad <- which(diff(share) < 0)
    if (!length(bad)) break
    block[[bad[1]]] <- c(block[[bad[1]]], block[[bad[1] + 1]]); block[[bad[1] + 1]] <- NULL
  }
  1 - rep(share, lengths(block))
}
nonparametric$turbinePooled <- list(survival = pooled(turbine$failed, turbine$inspected))

cox <- coxph(Surv(time, status) ~ age + sex + ecog, cure, ties = "efron", control = coxph.control(eps = 1e-12, toler.chol = 1e-13))
toy1 <- data.frame(time = c(1, 1, 6, 6, 8, 9), status = c(1, 0, 1, 1, 0, 1), x = c(1, 1, 1, 0, 0, 0))
toyFit <- coxph(Surv(time, status) ~ x, toy1, ties = "efron", control = coxph.control(eps = 1e-12, toler.chol = 1e-13))
heartFit <- coxph(Surv(start, stop, event) ~ age + year + surgery + transplant, heart,
  control = coxph.control(eps = 1e-12, toler.chol = 1e-13))
heartData <- with(heart, list(entry = start, time = stop, status = event, age = age, year = year, surgery = surgery,
  transplant = as.numeric(transplant == "1")))
coxBlock <- function(fit) list(coefficients = list1(unname(coef(fit))), covariance = fit$var, logLikelihood = fit$loglik[2],
  logLikelihoodAtZero = fit$loglik[1])
harrell <- concordance(cox)
uno <- concordance(cox, timewt = "n/G2")
uno730 <- concordance(cox, timewt = "n/G2", ymax = 730)
toy2 <- data.frame(time = c(2, 4, 4, 6, 7, 9, 10, 12), status = c(1, 0, 1, 1, 0, 1, 0, 1), score = c(8, 3, 6, 7, 2, 5, 1, 4))
censoring <- survfit(Surv(time, 1 - status) ~ 1, cure)
G <- stepfun(censoring$time, c(1, censoring$surv))
Gbefore <- function(t) vapply(t, function(u) { k <- which(censoring$time < u); if (length(k)) censoring$surv[max(k)] else 1 }, 0)
predicted <- survfit(cox, newdata = cure)
kmFit <- survfit(rightCensored, cure)
at <- function(tau) summary(predicted, times = tau)$surv[1, ]
brier <- function(tau, p) mean(ifelse(cure$time <= tau & cure$status == 1, p^2 / Gbefore(cure$time),
  ifelse(cure$time > tau, (1 - p)^2 / G(tau), 0)))
tau <- c(180, 365, 545, 730)
accuracy <- list(
  harrell = list(concordance = unname(harrell$concordance), se = sqrt(unname(harrell$var)),
    concordant = unname(harrell$count["concordant"]), discordant = unname(harrell$count["discordant"]),
    tiedScore = unname(harrell$count["tied.x"])),
  uno = list(concordance = unname(uno$concordance)), uno730 = list(concordance = unname(uno730$concordance)),
  toy = list(data = as.list(toy2),
    harrell = unname(concordance(Surv(time, status) ~ score, toy2, reverse = TRUE)$concordance),
    uno = unname(concordance(Surv(time, status) ~ score, toy2, reverse = TRUE, timewt = "n/G2")$concordance)),
  brier = list(tau = tau, model = vapply(tau, function(t) brier(t, at(t)), 0),
    null = vapply(tau, function(t) brier(t, summary(kmFit, times = t)$surv), 0),
    probability = list(p180 = unname(1 - at(180)), p365 = unname(1 - at(365)), p545 = unname(1 - at(545)), p730 = unname(1 - at(730)))))
set.seed(7)
score <- round(rnorm(60), 1); y <- rbinom(60, 1, plogis(-.5 + score)); p <- plogis(-.9 + 1.4 * score)
wilcoxon <- unname(wilcox.test(score[y == 1], score[y == 0], exact = FALSE)$statistic) / (sum(y) * sum(1 - y))
placement <- function(a, b) vapply(a, function(v) mean((v > b) + .5 * (v == b)), 0)
v10 <- placement(score[y == 1], score[y == 0]); v01 <- 1 - placement(score[y == 0], score[y == 1])
slope <- glm(y ~ qlogis(p), family = binomial, control = glm.control(epsilon = 1e-14))
accuracy$binary <- list(score = score, outcome = y, probability = p, auc = wilcoxon,
  aucSe = sqrt(var(v10) / sum(y) + var(v01) / sum(1 - y)), brier = mean((p - y)^2),
  logScore = -mean(y * log(p) + (1 - y) * log(1 - p)), slope = unname(coef(slope)[2]), intercept = unname(coef(slope)[1]),
  slopeSe = unname(sqrt(vcov(slope)[2, 2])), source = "wilcox.test, glm; standard error by DeLong, DeLong and Clarke-Pearson 1988")

# ---- recurrence ---------------------------------------------------------------------------------------------------
valve <- valveSeat[order(valveSeat$id, valveSeat$time), ]
ends <- tapply(valve$time, valve$id, max)
events <- valve[valve$status == 1, ]
mcfTimes <- sort(unique(events$time))
atRisk <- vapply(mcfTimes, function(t) sum(ends >= t), 0)
counts <- vapply(mcfTimes, function(t) sum(events$time == t), 0)
mcf <- cumsum(counts / atRisk)
variance <- vapply(seq_along(mcfTimes), function(k) { # Nelson 1995: squared sums of each engine's own deviations
  sum(vapply(names(ends), function(id) {
    j <- 1:k; inRisk <- ends[id] >= mcfTimes[j]
    own <- vapply(mcfTimes[j], function(t) sum(events$id == as.numeric(id) & events$time == t), 0)
    sum(ifelse(inRisk, (own - counts[j] / atRisk[j]) / atRisk[j], 0))^2
  }, 0))
}, 0)
pick <- function(t) max(which(mcfTimes <= t))
marks <- c(98, 200, 300, 400, 500, 600, 650)
powerLaw <- function(par) { b <- exp(par[1]); e <- exp(par[2])
  -(sum(log(b / e) + (b - 1) * log(events$time / e)) - sum((ends / e)^b)) }
tight <- function(start, f) { for (i in 1:6) start <- optim(start, f, method = "Nelder-Mead",
  control = list(reltol = 1e-16, maxit = 20000))$par; nlm(f, start, gradtol = 1e-12, steptol = 1e-14, iterlim = 500) }
power <- tight(c(.3, 6.3), powerLaw)
repairs <- list(c(120, 210, 262, 331), c(95, 160, 300), c(205, 248, 290, 325, 350), c(180, 240), c(60, 310))
stops <- c(360, 360, 360, 300, 360)
kijima <- function(par, type) {
  b <- exp(par[1]); e <- exp(par[2]); q <- par[3]; total <- 0
  if (q < 0) return(1e10)
  for (s in seq_along(repairs)) { v <- 0; last <- 0
    for (t in repairs[[s]]) { x <- t - last
      total <- total + log(b / e) + (b - 1) * log((v + x) / e) - ((v + x) / e)^b + (v / e)^b
      v <- if (type == 1) v + q * x else q * (v + x); last <- t }
    total <- total - ((v + stops[s] - last) / e)^b + (v / e)^b }
  -total
}
kijimaBlock <- function(type) { f <- function(par) kijima(par, type)
  best <- tight(c(.5, 5.3, .5), f)
  list(logShape = best$estimate[1], logScale = best$estimate[2], restoration = best$estimate[3], logLikelihood = -best$minimum,
    at = -f(c(log(2), log(200), .4))) }
recurrence <- list(
  valveSeat = list(data = as.list(valve), mcf = list(at = marks, value = vapply(marks, function(t) mcf[pick(t)], 0),
    se = vapply(marks, function(t) sqrt(variance[pick(t)]), 0)),
    powerLaw = list(shape = exp(power$estimate[1]), scale = exp(power$estimate[2]), logLikelihood = -power$minimum),
    source = "Nelson and Doganaksoy 1989, valve seats of diesel engines, R survival::valveSeat"),
  kijima = list(repairs = repairs, stops = stops, one = kijimaBlock(1), two = kijimaBlock(2),
    source = "invented repair times; likelihood of Kijima 1989 maximised by optim and nlm"))

# ---- truncation, inspection, damage clock ------------------------------------------------------------------------
mixed <- list(entry = c(0, 0, 20, 0, 35, 50, 0, 0, 60, 10, 0, 80, 0, 25, 0, 40),
  low = c(45, 60, 70, 90, 80, 110, 0, 30, 95, 100, 120, 130, 75, 85, 105, 140),
  high = c(45, 75, 70, Inf, 80, Inf, 40, 50, 110, Inf, 120, Inf, 90, 85, Inf, 150))
mixedEach <- function(par) { b <- exp(par[1]); e <- exp(par[2]); H <- function(t) (t / e)^b
  with(mixed, ifelse(low == high, log(b / e) + (b - 1) * log(low / e) - H(low) + H(entry),
    log(exp(-H(low)) - ifelse(is.finite(high), exp(-H(high)), 0)) + H(entry))) }
mixedFit <- tight(c(log(2), log(100)), function(par) -sum(mixedEach(par)))
hessian <- optimHess(mixedFit$estimate, function(par) -sum(mixedEach(par)), control = list(ndeps = c(1e-4, 1e-4)))
clock <- list(id = c(1, 1, 1, 2, 2, 3, 3, 3, 4, 4, 5, 5, 5, 6, 6, 7, 7, 8, 8, 8),
  from = c(0, 20, 50, 0, 40, 10, 30, 60, 0, 55, 0, 15, 45, 25, 70, 0, 30, 0, 20, 80),
  to = c(20, 50, 80, 40, 85, 30, 60, 90, 55, 95, 15, 45, 66, 70, 100, 30, 58, 20, 80, 120),
  x1 = c(0, 1, 1, 0, 0, 1, 0, 1, 0, 0, 1, 1, 1, 0, 0, 1, 1, 0, 0, 1),
  x2 = c(.1, .3, .5, .2, .2, .6, .4, .7, .1, .1, .9, .8, .9, .2, .3, .7, .9, .1, .2, .4),
  event = c(0, 0, 1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0, 0, 0, 1, 0, 0, 0))
clockEach <- function(par) { b <- exp(par[1]); e <- exp(par[2])
  vapply(unique(clock$id), function(i) { k <- which(clock$id == i)
    rate <- exp(par[3] * clock$x1[k] + par[4] * clock$x2[k]); entry <- rate[1] * clock$from[k][1]
    D <- entry + sum(rate * (clock$to[k] - clock$from[k])); d <- sum(clock$event[k])
    d * (log(b / e) + (b - 1) * log(D / e) + log(rate[length(k)])) - (D / e)^b + (entry / e)^b }, 0) }
clockPosterior <- function(par) -sum(clockEach(par)) - dnorm(par[1], log(2.5), .3, TRUE) - sum(dnorm(par[3:4], 0, .5, TRUE))
clockFit <- tight(c(.9, 4.8, .3, .3), clockPosterior)
clockHessian <- optimHess(clockFit$estimate, clockPosterior, control = list(ndeps = rep(1e-4, 4)))
truncation <- list(
  mixed = list(data = mixed, logShape = mixedFit$estimate[1], logScale = mixedFit$estimate[2],
    logLikelihood = -mixedFit$minimum, seLog = sqrt(diag(solve(hessian))), each = mixedEach(c(log(2), log(100))),
    total = sum(mixedEach(c(log(2), log(100)))), source = "invented rows, likelihood maximised by optim and nlm"),
  damageClock = list(data = clock, at = c(log(2), log(120), .4, .5), each = clockEach(c(log(2), log(120), .4, .5)),
    map = clockFit$estimate, se = sqrt(diag(solve(clockHessian))), source = "invented rows, posterior maximised by optim and nlm"))

# ---- counts and functions -----------------------------------------------------------------------------------------
chance <- c(.02, .03, .05, .05, .08, .1, .12, .15, .2, .25, .3, .4)
pmf <- 1; for (q in chance) pmf <- c(pmf * (1 - q), 0) + c(0, pmf * q)
counts <- c(3, 5, 10, 20, 50, 100)
functions <- list(
  poissonBinomial = list(chance = chance, pmf = pmf, mean = sum(chance), variance = sum(chance * (1 - chance)),
    quantiles = vapply(c(.5, .8, .9, .95), function(l) min(which(cumsum(pmf) >= l - 1e-12)) - 1, 0)),
  poissonRatio = list(events = counts, low = qchisq(.025, 2 * counts) / 2 / counts, high = qchisq(.975, 2 * counts + 2) / 2 / counts),
  normal = list(x = c(-38, -8, -2.5, -.3, 0, 1, 4, 7), logProbability = pnorm(c(-38, -8, -2.5, -.3, 0, 1, 4, 7), log.p = TRUE),
    p = c(1e-300, 1e-10, .025, .3, .5, .9, .999999), quantile = qnorm(c(1e-300, 1e-10, .025, .3, .5, .9, .999999))),
  gamma = list(shape = c(.1, .5, 1, 3, 10.5, 100, 2000), x = c(.2, .1, 2, 2.5, 14, 90, 2100),
    probability = pgamma(c(.2, .1, 2, 2.5, 14, 90, 2100), c(.1, .5, 1, 3, 10.5, 100, 2000)),
    logGamma = lgamma(c(.1, .5, 1, 3, 10.5, 100, 2000))),
  chiSquare = list(degrees = c(1, 2, 5, 40, 202), p = c(.001, .5, .9, .025, .975),
    quantile = qchisq(c(.001, .5, .9, .025, .975), c(1, 2, 5, 40, 202))))

cat(emit(list(
  meta = list(program = R.version.string, package = paste("survival", packageVersion("survival")),
    call = "Rscript tests/references/reliability/generate.R > tests/references/reliability/reliability-values.json",
    tolerance = "fits to 1e-6 relative unless a test states otherwise; closed forms to 1e-10",
    note = "survreg of a Weibull: log time = x'b + scale W, shape = 1/scale; covariance is of the coefficients and log scale"),
  parametric = parametricPart, nonparametric = nonparametric, lung = c(as.list(cure)), lungAll = lungAll,
  cox = list(lung = coxBlock(cox), toy = c(list(data = as.list(toy1)), coxBlock(toyFit)),
    heart = c(list(data = heartData), coxBlock(heartFit))),
  accuracy = accuracy, recurrence = recurrence, truncation = truncation, functions = functions)), "\n")
