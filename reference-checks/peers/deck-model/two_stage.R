# Two-stage fit of deck.csv: least squares for the cores with one background, then metafor's rma.mv for the population.
# Run: Rscript two_stage.R > two_stage.txt
suppressMessages(library(metafor))
deck <- read.csv("deck.csv")
deck$j <- as.integer(factor(deck$core))
erfc <- function(z) 2 * pnorm(-z * sqrt(2))
anti <- function(x, L) x * erfc(x / L) - L / sqrt(pi) * exp(-(x / L)^2)
model <- function(p) {
  s <- p[deck$j]; d <- p[8 + deck$j]; c0 <- p[17]; L <- 2 * sqrt(exp(d) * deck$age_yr)
  w <- deck$bottom_mm - deck$top_mm
  share <- (anti(deck$bottom_mm, L) - anti(deck$top_mm, L)) / w
  slope <- (exp(-(deck$top_mm / L)^2) - exp(-(deck$bottom_mm / L)^2)) * L / (2 * sqrt(pi) * w)
  J <- matrix(0, nrow(deck), 17); k <- seq_len(nrow(deck))
  J[cbind(k, deck$j)] <- exp(s) * share; J[cbind(k, 8 + deck$j)] <- (exp(s) - c0) * slope; J[, 17] <- 1 - share
  list(r = deck$chloride_kg_per_m3 - c0 - (exp(s) - c0) * share, J = J)
}
# Gauss-Newton with halved steps, until the step is below 1e-12.
par <- c(rep(log(8), 8), rep(log(22), 8), 0.3)
for (it in 1:2000) {
  m <- model(par); step <- qr.solve(m$J, m$r); f <- min(1, 0.5 / max(abs(step)))
  while (sum(model(par + f * step)$r^2) > sum(m$r^2) && f > 1e-10) f <- f / 2
  par <- par + f * step
  if (max(abs(step)) < 1e-12) break
}
m <- model(par); sigma <- sqrt(sum(m$r^2) / (nrow(deck) - 17)); covariance <- sigma^2 * solve(crossprod(m$J))
cat("R", R.version$major, ".", R.version$minor, " metafor ", as.character(packageVersion("metafor")), "\n", sep = "")
p <- function(name, x) cat(sprintf("%s %.10g\n", name, x))
p("background", par[17]); p("lab_error", sigma)
order_ <- as.vector(rbind(1:8, 9:16))
y <- par[order_]; V <- covariance[order_, order_]
for (k in 1:16) p(sprintf("estimate_%d", k), y[k])
for (k in 1:2) p(sprintf("variance_%d", k), V[k, k])
p("covariance_1_4", V[1, 4])
g <- data.frame(y = y, core = rep(1:8, each = 2), out = rep(c("S", "D"), 8))
g$out <- factor(g$out, levels = c("S", "D"))
for (m in c("REML", "ML")) {
  r <- rma.mv(y, V, mods = ~ out - 1, random = ~ out | core, struct = "UN", data = g, method = m, test = "t",
              control = list(optimizer = "optim", optmethod = "BFGS", reltol = 1e-14))
  p(paste0(m, "_mean_S"), r$beta[1]); p(paste0(m, "_mean_D"), r$beta[2])
  p(paste0(m, "_se_S"), r$se[1]); p(paste0(m, "_se_D"), r$se[2])
  p(paste0(m, "_sd_S"), sqrt(r$tau2[1])); p(paste0(m, "_sd_D"), sqrt(r$tau2[2]))
  p(paste0(m, "_rho"), r$rho); p(paste0(m, "_loglik"), as.numeric(logLik(r)))
}
