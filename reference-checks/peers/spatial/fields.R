# Restricted maximum likelihood of a field with exponential correlation and a nugget, two ways that share nothing with the library:
# nlme's gls, and the restricted likelihood written out here. Readings: the wheat yields of nlme's Wheat2 (Stroup, Baenziger and Mulitze 1994,
# as printed by Pinheiro and Bates, Mixed-Effects Models in S and S-PLUS, 2000), plots with longitude below 20; and a simulated field.
# Run in this folder: Rscript fields.R > fields.txt
library(nlme)
likelihood <- function(D, z) function(l, nu) {
  n <- length(z); R <- (1 - nu) * exp(-D / l); diag(R) <- 1; U <- chol(R)
  a <- backsolve(U, rep(1, n), transpose = TRUE); b <- backsolve(U, z, transpose = TRUE)
  mu <- sum(a * b) / sum(a * a); s2 <- sum((b - mu * a)^2) / (n - 1)
  c(ll = -0.5 * ((n - 1) * log(s2) + 2 * sum(log(diag(U))) + log(sum(a * a))), mu = mu, s2 = s2, se = sqrt(s2 / sum(a * a)))
}
one <- function(d, name) {
  D <- as.matrix(dist(d[, c("x", "y")])); L <- likelihood(D, d$z)
  prof <- function(l) {
    o <- optimize(function(nu) L(l, nu)["ll"], c(1e-4, 1), maximum = TRUE, tol = 1e-9)
    c(o$objective, o$maximum)
  }
  o <- optimize(function(t) prof(exp(t))[1], log(c(0.05, max(D))), maximum = TRUE, tol = 1e-8)
  l <- exp(o$maximum); nu <- prof(l)[2]; e <- L(l, nu)
  f <- function(t) 2 * (e["ll"] - prof(exp(t))[1]) - qchisq(.95, 1)
  root <- function(a, b) { r <- try(uniroot(f, c(a, b), tol = 1e-7), silent = TRUE); if (inherits(r, "try-error")) "none" else exp(r$root) }
  cat(name, "n", nrow(d), "length", l, "nugget", nu, "mean", e["mu"], "variance", e["s2"], "se", e["se"],
      "ratio", 2 * (e["ll"] - L(1, 1)["ll"]), "lower", root(log(min(D[D > 0]) / 3), log(l)), "upper", root(log(l), log(max(D))), "\n")
  g <- try(gls(z ~ 1, data = d, correlation = corExp(c(l, max(nu, .05)), form = ~ x + y, nugget = TRUE), method = "REML"), silent = TRUE)
  if (!inherits(g, "try-error")) cat("  gls: length, nugget", coef(g$modelStruct$corStruct, unconstrained = FALSE),
      "variance", g$sigma^2, "mean, se", summary(g)$tTable[1, 1:2], "\n") else cat("  gls: did not converge\n")
}
cat(R.version.string, "nlme", as.character(packageVersion("nlme")), "\n")
data(Wheat2); w <- data.frame(x = Wheat2$longitude, y = Wheat2$latitude, z = Wheat2$yield); w <- w[w$x < 20, ]
one(w, "wheat")
set.seed(8); s <- data.frame(x = round(runif(120, 0, 40), 2), y = round(runif(120, 0, 12), 2))
D <- as.matrix(dist(s)); C <- 0.7 * exp(-D / 4); diag(C) <- 1
s$z <- round(50 + 6 * as.vector(t(chol(C)) %*% rnorm(120)), 2)
one(s, "simulated")
write.csv(w, "wheat.csv", row.names = FALSE, quote = FALSE); write.csv(s, "simulated.csv", row.names = FALSE, quote = FALSE)
