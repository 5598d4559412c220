using DeckLife.Numerics.MarkovChains;

namespace DeckLife.Fitting;

// The draws of the population's parameters: means, spread, ageing.
internal sealed partial class DeckChain
{
    // Means given the cores: normal, with the normal prior. Coefficients ordered (ln Cs, ln D) of all, then of the targeted.
    private void DrawMeans()
    {
        var count = _model.MeanCount;
        var free = 1 / (1 - (_correlation * _correlation));
        var pss = free * _inverseSdSurface * _inverseSdSurface;
        var pdd = free * _inverseSdDiffusion * _inverseSdDiffusion;
        var psd = -free * _correlation * _inverseSdSurface * _inverseSdDiffusion;

        Span<double> precision = stackalloc double[count * count];
        Span<double> right = stackalloc double[count];
        precision.Clear();
        for (var i = 0; i < count; i++)
        {
            var sd = _model.SdOfCoefficient(i);
            precision[(i * count) + i] = 1 / (sd * sd);
            right[i] = _model.MeanOfCoefficient(i) / (sd * sd);
        }

        for (var j = 0; j < _cores; j++)
        {
            var surface = State.LnSurface[j];
            var diffusion = State.LnDiffusion[j] - _ageShift[j];
            var first = (pss * surface) + (psd * diffusion);
            var second = (psd * surface) + (pdd * diffusion);
            for (var a = 0; a < count; a += 2)
            {
                var left = a == 0 ? 1 : _model.IsTargeted![j];
                right[a] += left * first;
                right[a + 1] += left * second;
                for (var b = 0; b < count; b += 2)
                {
                    var both = left * (b == 0 ? 1 : _model.IsTargeted![j]);
                    precision[(a * count) + b] += both * pss;
                    precision[(a * count) + b + 1] += both * psd;
                    precision[((a + 1) * count) + b] += both * psd;
                    precision[((a + 1) * count) + b + 1] += both * pdd;
                }
            }
        }

        NormalFromPrecision(precision, right, State.Means);
    }

    // A draw of N(P⁻¹ r, P⁻¹) with P = L Lᵀ: solve L y = r, then Lᵀ x = y + z.
    private void NormalFromPrecision(Span<double> precision, Span<double> right, Span<double> draw)
    {
        var count = right.Length;
        for (var i = 0; i < count; i++)
        {
            for (var k = 0; k <= i; k++)
            {
                var sum = precision[(i * count) + k];
                for (var m = 0; m < k; m++)
                {
                    sum -= precision[(i * count) + m] * precision[(k * count) + m];
                }

                precision[(i * count) + k] =
                    i == k ? Math.Sqrt(sum) : sum / precision[(k * count) + k];
            }

            var solved = right[i];
            for (var k = 0; k < i; k++)
            {
                solved -= precision[(i * count) + k] * right[k];
            }

            right[i] = solved / precision[(i * count) + i];
        }

        for (var i = count - 1; i >= 0; i--)
        {
            var sum = right[i] + _random.NextNormal();
            for (var k = i + 1; k < count; k++)
            {
                sum -= precision[(k * count) + i] * draw[k];
            }

            draw[i] = sum / precision[(i * count) + i];
        }
    }

    private void DrawSpread()
    {
        double surfaceSquares = 0;
        double diffusionSquares = 0;
        double products = 0;
        for (var j = 0; j < _cores; j++)
        {
            var u = State.LnSurface[j] - MeanSurface(j);
            var v = State.LnDiffusion[j] - MeanDiffusion(j);
            surfaceSquares += u * u;
            diffusionSquares += v * v;
            products += u * v;
        }

        // Each density leaves out what its own coordinate doesn't move.
        var rho = _correlation;
        var half = 0.5 / (1 - (rho * rho));
        var other = _inverseSdDiffusion;
        State.LnSdSurface = UnivariateSlice.Next(
            _random,
            x =>
            {
                var sd = Math.Exp(x);
                var a = 1 / sd;
                return _model.LogPriorOfLnSdSurface(x, sd)
                    - (_cores * x)
                    - (half * a * ((a * surfaceSquares) - (2 * rho * other * products)));
            },
            State.LnSdSurface,
            0.5,
            -Far
        );
        var inverseSurface = Math.Exp(-State.LnSdSurface);
        State.LnSdDiffusion = UnivariateSlice.Next(
            _random,
            x =>
            {
                var sd = Math.Exp(x);
                var b = 1 / sd;
                return _model.LogPriorOfLnSdDiffusion(x, sd)
                    - (_cores * x)
                    - (half * b * ((b * diffusionSquares) - (2 * rho * inverseSurface * products)));
            },
            State.LnSdDiffusion,
            0.5,
            -Far
        );
        var inverseDiffusion = Math.Exp(-State.LnSdDiffusion);
        var squares =
            (inverseSurface * inverseSurface * surfaceSquares)
            + (inverseDiffusion * inverseDiffusion * diffusionSquares);
        var cross = 2 * inverseSurface * inverseDiffusion * products;
        State.ArtanhCorrelation = UnivariateSlice.Next(
            _random,
            x =>
            {
                var correlation = Math.Tanh(x);
                var free = 1 - (correlation * correlation);
                if (!(free > 1e-12))
                {
                    return double.NegativeInfinity;
                }

                var logCosh = DeckModel.LogCosh(x);
                return _model.LogPriorOfCorrelation(logCosh)
                    + (_cores * logCosh)
                    - (0.5 * (squares - (correlation * cross)) / free);
            },
            State.ArtanhCorrelation,
            0.7
        );
        TakeSpread();
    }

    private void DrawAgeing()
    {
        double Density(double exponent)
        {
            var log = _model.LogPriorOfAgeing(exponent);
            if (double.IsNegativeInfinity(log))
            {
                return log;
            }

            _model.AgeShifts(exponent, _ageShift);
            for (var j = 0; j < _cores; j++)
            {
                log += CorePopulation(j, State.LnSurface[j], State.LnDiffusion[j]);
            }

            return log;
        }

        State.AgeingExponent = UnivariateSlice.Next(
            _random,
            Density,
            State.AgeingExponent,
            0.2,
            0,
            _model.Priors.LargestAgeingExponent
        );
        _model.AgeShifts(State.AgeingExponent, _ageShift);
    }

    // Means move and every core with them: the cores' standardised distances stay, so the population's density does too.
    private void MoveMeansWithCores()
    {
        var count = _model.MeanCount;
        Span<double> step = stackalloc double[count];
        _meanWalk.Propose(_random, step);
        double ratio = 0;
        for (var i = 0; i < count; i++)
        {
            var sd = _model.SdOfCoefficient(i);
            var before = (State.Means[i] - _model.MeanOfCoefficient(i)) / sd;
            var after = before + (step[i] / sd);
            ratio += 0.5 * ((before * before) - (after * after));
        }

        for (var j = 0; j < _cores; j++)
        {
            var targeted = _model.IsTargeted?[j] ?? 0;
            _proposedSurface[j] =
                State.LnSurface[j] + step[0] + (count > 2 ? targeted * step[2] : 0);
            _proposedDiffusion[j] =
                State.LnDiffusion[j] + step[1] + (count > 2 ? targeted * step[3] : 0);
        }

        ratio += LikelihoodRatioOfProposal(State.Background);
        if (Accept(ratio, _meanWalk))
        {
            for (var i = 0; i < count; i++)
            {
                State.Means[i] += step[i];
            }

            TakeProposedCores();
        }
    }

    // A standard deviation moves and each core keeps its standardised distances (a, b): u = sS a, v = sD (ρ a + √(1-ρ²) b). The step is in
    // the standard deviation itself, turned back at 0, where the likelihood is smooth; in the logarithm 0 would lie infinitely far.
    private void MoveSdSurfaceWithCores()
    {
        var before = Math.Exp(State.LnSdSurface);
        var after = Turned(before, _sdSurfaceWalk);
        var factor = after / before;
        for (var j = 0; j < _cores; j++)
        {
            var mean = MeanSurface(j);
            _proposedSurface[j] = mean + (factor * (State.LnSurface[j] - mean));
        }

        State.LnDiffusion.CopyTo(_proposedDiffusion, 0);
        var surface = Math.Log(after);
        var ratio =
            PriorRatioOfSd(surface, State.LnSdDiffusion)
            - (surface - State.LnSdSurface)
            + LikelihoodRatioOfProposal(State.Background);
        if (Accept(surface > -Far ? ratio : double.NegativeInfinity, _sdSurfaceWalk))
        {
            State.LnSdSurface = surface;
            TakeSpread();
            TakeProposedCores();
        }
    }

    private void MoveSdDiffusionWithCores()
    {
        var before = Math.Exp(State.LnSdDiffusion);
        var after = Turned(before, _sdDiffusionWalk);
        var factor = after / before;
        for (var j = 0; j < _cores; j++)
        {
            var mean = MeanDiffusion(j);
            _proposedDiffusion[j] = mean + (factor * (State.LnDiffusion[j] - mean));
        }

        State.LnSurface.CopyTo(_proposedSurface, 0);
        var diffusion = Math.Log(after);
        var ratio =
            PriorRatioOfSd(State.LnSdSurface, diffusion)
            - (diffusion - State.LnSdDiffusion)
            + LikelihoodRatioOfProposal(State.Background);
        if (Accept(diffusion > -Far ? ratio : double.NegativeInfinity, _sdDiffusionWalk))
        {
            State.LnSdDiffusion = diffusion;
            TakeSpread();
            TakeProposedCores();
        }
    }

    private void MoveCorrelationWithCores()
    {
        Span<double> step = stackalloc double[1];
        _correlationWalk.Propose(_random, step);
        var artanh = State.ArtanhCorrelation + step[0];
        var ratio = double.NegativeInfinity;
        if (Math.Abs(artanh) < 12)
        {
            var before = _correlation;
            var after = Math.Tanh(artanh);
            var free = Math.Sqrt((1 - (after * after)) / (1 - (before * before)));
            var scale = Math.Exp(State.LnSdDiffusion - State.LnSdSurface);
            for (var j = 0; j < _cores; j++)
            {
                // v = sD ρ a + (the part of ln D free of ln Cs), the latter scaled by √(1-ρ²).
                var a = scale * (State.LnSurface[j] - MeanSurface(j));
                var mean = MeanDiffusion(j);
                _proposedDiffusion[j] =
                    mean + (after * a) + (free * (State.LnDiffusion[j] - mean - (before * a)));
            }

            State.LnSurface.CopyTo(_proposedSurface, 0);
            ratio =
                _model.LogPriorOfSpread(State.LnSdSurface, State.LnSdDiffusion, artanh)
                - _model.LogPriorOfSpread(
                    State.LnSdSurface,
                    State.LnSdDiffusion,
                    State.ArtanhCorrelation
                )
                + LikelihoodRatioOfProposal(State.Background);
        }

        if (Accept(ratio, _correlationWalk))
        {
            State.ArtanhCorrelation = artanh;
            TakeSpread();
            TakeProposedCores();
        }
    }

    // A random step from a positive value, turned back at 0.
    private double Turned(double value, AdaptiveRandomWalk walk)
    {
        Span<double> step = stackalloc double[1];
        walk.Propose(_random, step);
        return Math.Abs(value + step[0]);
    }

    // The priors are densities of the logarithms; the caller takes the logarithm's own Jacobian off.
    private double PriorRatioOfSd(double lnSdSurface, double lnSdDiffusion) =>
        _model.LogPriorOfSpread(lnSdSurface, lnSdDiffusion, State.ArtanhCorrelation)
        - _model.LogPriorOfSpread(State.LnSdSurface, State.LnSdDiffusion, State.ArtanhCorrelation);

    private void MoveAgeingWithCores()
    {
        Span<double> step = stackalloc double[1];
        _ageingWalk.Propose(_random, step);
        var exponent = State.AgeingExponent + step[0];
        var ratio = _model.LogPriorOfAgeing(exponent);
        if (!double.IsNegativeInfinity(ratio))
        {
            _model.AgeShifts(exponent, _proposedAgeShift);
            for (var j = 0; j < _cores; j++)
            {
                _proposedSurface[j] = State.LnSurface[j];
                _proposedDiffusion[j] = State.LnDiffusion[j] + _proposedAgeShift[j] - _ageShift[j];
            }

            ratio +=
                LikelihoodRatioOfProposal(State.Background)
                - _model.LogPriorOfAgeing(State.AgeingExponent);
        }

        if (Accept(ratio, _ageingWalk))
        {
            State.AgeingExponent = exponent;
            _proposedAgeShift.CopyTo(_ageShift, 0);
            TakeProposedCores();
        }
    }
}
