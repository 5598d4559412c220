using DeckLife.Fitting;
using DeckLife.Numerics.Diffusion;
using Xunit;

namespace DeckLife.Tests.Fitting;

/// <summary>The two objectives against each other and against their definitions, minimised here by other means.</summary>
public class ProfileObjectiveTests
{
    private static readonly double[] Contents = [4.9, 3.4, 2.5, 1.3, 0.9, 0.45, 0.5];
    private static readonly double[] Weights = [1, 2, 1, 0.5, 1, 3, 1];
    private static readonly double[] LnDiffusions = [1.2, 2.4, 3.1, 3.9];
    private static readonly LimitCut Cut = new(2.7764451052, 1.9599639845);

    // The shares fall too little with depth for these: least squares wants a background below 0.
    private static readonly double[] Straight = [4.9, 3.9, 2.9, 1.9, 0.9, 0.2, 0.05];

    public static TheoryData<double[], double?, bool> Measured =>
        new()
        {
            { Contents, null, false },
            { Contents, null, true },
            { Contents, 0.3, false },
            { Contents, 0.3, true },
            { Straight, null, false },
        };

    // With normal errors and every content measured the likelihood is least squares: same estimates, scale and sets.
    [Theory]
    [MemberData(nameof(Measured))]
    public void Likelihood_NormalAndMeasured_IsLeastSquares(
        double[] content,
        double? background,
        bool known
    )
    {
        var data = Data(content, background, known);
        var squares = new LeastSquaresObjective(data);
        var likelihood = new LikelihoodObjective(data, ErrorLaw.Normal);
        var best = LnDiffusions.Select(squares.At).MinBy(p => p.Objective);
        var bestLikelihood = LnDiffusions.Select(likelihood.At).MinBy(p => p.Objective);

        Assert.Equal(best.LnDiffusion, bestLikelihood.LnDiffusion);
        var offset = squares.Deviance(best) - likelihood.Deviance(bestLikelihood);
        foreach (var x in LnDiffusions)
        {
            var (one, other) = (squares.At(x), likelihood.At(x));
            Assert.Equal(one.Excess, other.Excess, 1e-6);
            Assert.Equal(one.Background, other.Background, 1e-6);
            Assert.Equal(one.Surface, other.Surface, 1e-6);
            Assert.Equal(1, other.Scale / one.Scale, 1e-6);
            if (known)
            {
                Assert.Equal(one.Objective, other.Objective, 1e-8);
            }
            else
            {
                Assert.Equal(offset, squares.Deviance(one) - likelihood.Deviance(other), 1e-6);
            }

            foreach (var which in Enum.GetValues<ProfileParameter>())
            {
                if (background is not null && which == ProfileParameter.Background)
                {
                    continue;
                }

                foreach (var upper in (bool[])[false, true])
                {
                    AssertSame(
                        squares.End(x, which, upper, squares.Threshold(best, Cut)),
                        likelihood.End(x, which, upper, likelihood.Threshold(bestLikelihood, Cut))
                    );
                    if (!known)
                    {
                        AssertSame(
                            squares.End(x, which, upper, squares.ThresholdAfter(best, 3)),
                            likelihood.End(
                                x,
                                which,
                                upper,
                                likelihood.ThresholdAfter(bestLikelihood, 3)
                            )
                        );
                    }
                }
            }
        }
    }

    // The least of the sum of squares by its own definition: a clipped parabola in C0 for each Cs of a golden-section search.
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void LeastSquares_BothFreeAndAtLeastZero_ConstrainedMinimum(bool straight)
    {
        var data = Data(straight ? Straight : Contents, null, false);
        var objective = new LeastSquaresObjective(data);
        foreach (var x in LnDiffusions)
        {
            var point = objective.At(x);
            var least = Golden(s => LeastWith(data, x, s, null), 0, 60);

            Assert.Equal(least, point.Objective, 1e-7 * least);
            Assert.Equal(Squares(data, x, point.Surface, point.Background), point.Objective, 1e-11);
            Assert.True(point.Background >= 0 && point.Excess >= 0);
            // Root of the sum of squares over 7 slices less 3 parameters.
            Assert.Equal(Math.Sqrt(point.Objective / 4), point.Scale, 1e-12);
        }
    }

    // By the definition of a set: at its end the least sum of squares, all else free, is the threshold; beyond it is more.
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void LeastSquares_EndOfASet_ThresholdReachedThere(bool straight)
    {
        var data = Data(straight ? Straight : Contents, null, false);
        var objective = new LeastSquaresObjective(data);
        var threshold = objective.Threshold(
            LnDiffusions.Select(objective.At).MinBy(p => p.Objective),
            Cut
        );
        var ends = 0;
        foreach (var x in LnDiffusions)
        {
            foreach (var upper in (bool[])[false, true])
            {
                var surface = objective.End(x, ProfileParameter.Surface, upper, threshold);
                var background = objective.End(x, ProfileParameter.Background, upper, threshold);
                Assert.Equal(objective.At(x).Objective > threshold, surface is null);
                Assert.Equal(surface is null, background is null);
                if (surface is not { } cs || background is not { } c0)
                {
                    continue;
                }

                ends++;
                Assert.Equal(threshold, LeastWith(data, x, cs, null), 1e-8 * threshold);
                Assert.True(LeastWith(data, x, cs + (upper ? 0.01 : -0.01), null) > threshold);
                if (c0 > 0)
                {
                    Assert.Equal(threshold, LeastWith(data, x, null, c0), 1e-8 * threshold);
                    Assert.True(LeastWith(data, x, null, c0 + (upper ? 0.01 : -0.01)) > threshold);
                }
                else
                {
                    Assert.False(upper);
                    Assert.True(LeastWith(data, x, null, 0) <= threshold);
                }
            }
        }

        Assert.True(ends >= 2);
    }

    // F(1, n - p) cut: S (1 + t²/(n - p)); known errors: the normal cut while the residuals keep to them, else that of the residuals.
    [Fact]
    public void LeastSquares_Threshold_RiseOfTheSumOfSquares()
    {
        var estimated = new LeastSquaresObjective(Data(Contents, null, false));
        var given = new LeastSquaresObjective(Data(Contents, null, true));
        var at = new ProfilePoint(3, 2, 0, 4, 0.3, 1);

        Assert.Equal(
            2 + (2 / 4.0 * Cut.Student * Cut.Student),
            estimated.Threshold(at, Cut),
            1e-12
        );
        Assert.Equal(2 + (Cut.Normal * Cut.Normal), given.Threshold(at, Cut), 1e-12);
        Assert.Equal(
            8 + (8 / 4.0 * Cut.Student * Cut.Student),
            given.Threshold(at with { Objective = 8 }, Cut),
            1e-12
        );
        // Twice the logarithm of the likelihood is -(n - p) ln S.
        Assert.Equal(3, 4 * Math.Log(estimated.ThresholdAfter(at, 3) / 2), 1e-12);
        Assert.Equal(4 * Math.Log(2), estimated.Deviance(at), 1e-12);
    }

    public static TheoryData<ErrorLaw, double?, bool> Laws =>
        new()
        {
            { ErrorLaw.Normal, null, false },
            { ErrorLaw.Normal, 0.3, false },
            { ErrorLaw.Normal, null, true },
            { ErrorLaw.Student, null, false },
            { ErrorLaw.Student, 0.3, false },
            { ErrorLaw.Student, 0.3, true },
        };

    // Non-detects by the normal law and slips by Student's t: value and scale by the written-out likelihood, minimised by another search.
    [Theory]
    [MemberData(nameof(Laws))]
    public void Likelihood_NonDetects_MinimumOfTheWrittenOutLikelihood(
        ErrorLaw law,
        double? background,
        bool known
    )
    {
        var data = Data(Contents, background, known, [4, 6]);
        var objective = new LikelihoodObjective(data, law);
        foreach (var x in LnDiffusions)
        {
            var point = objective.At(x);

            Assert.Equal(
                MinusTwoLog(data, law, x, point.Surface, point.Background, point.Scale),
                point.Objective,
                1e-8
            );
            // No step in any of the free numbers leads lower.
            foreach (var step in (double[])[-0.02, 0.02])
            {
                Assert.True(
                    MinusTwoLog(data, law, x, point.Surface + step, point.Background, point.Scale)
                        > point.Objective
                );
                if (!known)
                {
                    Assert.True(
                        MinusTwoLog(
                            data,
                            law,
                            x,
                            point.Surface,
                            point.Background,
                            point.Scale * (1 + step)
                        ) > point.Objective
                    );
                }

                if (background is null && point.Background + step >= 0)
                {
                    Assert.True(
                        MinusTwoLog(
                            data,
                            law,
                            x,
                            point.Surface,
                            point.Background + step,
                            point.Scale
                        ) > point.Objective
                    );
                }
            }
        }
    }

    [Theory]
    [MemberData(nameof(Laws))]
    public void Likelihood_EndOfASet_ThresholdReachedThere(
        ErrorLaw law,
        double? background,
        bool known
    )
    {
        var data = Data(Contents, background, known, [4, 6]);
        var objective = new LikelihoodObjective(data, law);
        var best = LnDiffusions.Select(objective.At).MinBy(p => p.Objective);
        var threshold = objective.Threshold(best, Cut);
        var nu = known ? 0 : data.DegreesOfFreedom;
        Assert.Equal(
            known ? Cut.Normal * Cut.Normal : nu * Math.Log(1 + (Cut.Student * Cut.Student / nu)),
            threshold - best.Objective,
            1e-10
        );
        Assert.Equal(3, objective.ThresholdAfter(best, 3) - best.Objective, 1e-10);
        var x = best.LnDiffusion;
        foreach (var upper in (bool[])[false, true])
        {
            var cs = objective.End(x, ProfileParameter.Surface, upper, threshold)!.Value;
            Assert.Equal(threshold, LeastOf(data, law, x, cs, null, known), 1e-5);
            if (background is null)
            {
                var c0 = objective.End(x, ProfileParameter.Background, upper, threshold)!.Value;
                Assert.True(c0 > 0 || !upper);
                var there = LeastOf(data, law, x, null, c0, known);
                Assert.True(c0 > 0 ? Math.Abs(there - threshold) < 1e-5 : there <= threshold);
            }
        }

        Assert.Null(objective.End(x, ProfileParameter.Surface, true, best.Objective - 1e-6));
    }

    [Theory]
    [MemberData(nameof(Laws))]
    public void Slope_AnyObjective_IsTheDerivative(ErrorLaw law, double? background, bool known)
    {
        ProfileObjective[] objectives =
        [
            new LikelihoodObjective(Data(Contents, background, known, [4, 6]), law),
            new LeastSquaresObjective(Data(Contents, background, known)),
            new LeastSquaresObjective(Data(Straight, background, known)),
        ];
        foreach (var objective in objectives)
        {
            foreach (var x in LnDiffusions)
            {
                const double Step = 1e-4;
                var numeric =
                    (objective.At(x + Step).Objective - objective.At(x - Step).Objective)
                    / (2 * Step);
                Assert.Equal(numeric, objective.At(x).Slope, 1e-4 * (1 + Math.Abs(numeric)));
            }
        }
    }

    [Fact]
    public void Create_LawAndNonDetects_TheObjectiveThatTheyNeed()
    {
        Assert.IsType<LeastSquaresObjective>(
            ProfileObjective.Create(Data(Contents, null, false), ErrorLaw.Normal)
        );
        Assert.IsType<LikelihoodObjective>(
            ProfileObjective.Create(Data(Contents, null, false, [6]), ErrorLaw.Normal)
        );
        Assert.IsType<LikelihoodObjective>(
            ProfileObjective.Create(Data(Contents, null, false), ErrorLaw.Student)
        );
    }

    // Rising contents: no salt from above in the best fit with both at least 0, the background their mean.
    [Fact]
    public void LeastSquares_RisingContents_NoExcessAndTheWeightedMean()
    {
        var data = Data([1, 2, 3, 4, 5, 6, 7], null, false);

        var point = new LeastSquaresObjective(data).At(3);

        Assert.Equal(0, point.Excess);
        Assert.Equal(
            Weights.Zip(data.Content, (w, y) => w * y).Sum() / Weights.Sum(),
            point.Background,
            1e-12
        );
    }

    // No slice feels the surface, or all hold the same share of it: numbers all the same, and no limit where there is no information.
    [Fact]
    public void LeastSquares_SharesAllAlike_FiniteAndUnbounded()
    {
        foreach (var background in (double?[])[null, 0.3])
        {
            var none = new LeastSquaresObjective(Deep(background)).At(-8);
            Assert.Equal(0, none.Excess);
            Assert.True(double.IsFinite(none.Objective));
        }

        var full = new LeastSquaresObjective(Data(Contents, null, false));
        var threshold = 2 * full.At(90).Objective;
        Assert.Equal(
            double.PositiveInfinity,
            full.End(90, ProfileParameter.Background, true, threshold)
        );
        Assert.Equal(0, full.End(90, ProfileParameter.Background, false, threshold));
    }

    // Where no slice feels the surface any Cs agrees with them: no upper end, and the lower one is 0.
    [Fact]
    public void Likelihood_NoSliceFeelsTheSurface_CsUnbounded()
    {
        var objective = new LikelihoodObjective(Deep(null), ErrorLaw.Student);
        var threshold = objective.ThresholdAfter(objective.At(-8), 4);

        Assert.Equal(
            double.PositiveInfinity,
            objective.End(-8, ProfileParameter.Surface, true, threshold)
        );
        Assert.Equal(0, objective.End(-8, ProfileParameter.Surface, false, threshold));
    }

    // Contents without any error: the scale would go to 0 and the likelihood to infinity; a floor keeps both numbers.
    [Theory]
    [InlineData(ErrorLaw.Normal)]
    [InlineData(ErrorLaw.Student)]
    public void Likelihood_ExactContents_TheTruthAndATinyScale(ErrorLaw law)
    {
        var exact = Shares(Data(Contents, null, false), 3).Select(p => 0.3 + (4.7 * p)).ToArray();
        exact[6] = 1;
        var point = new LikelihoodObjective(Data(exact, null, false, [6]), law).At(3);

        Assert.Equal(4.7, point.Excess, 1e-6);
        Assert.Equal(0.3, point.Background, 1e-6);
        Assert.InRange(point.Scale, 1e-12, 1e-6);
        Assert.True(double.IsFinite(point.Objective) && double.IsFinite(point.Slope));
    }

    private static ProfileData Deep(double? background)
    {
        var data = Data(Contents, background, false);
        return new()
        {
            Rows = data.Rows,
            TopMm = [.. data.TopMm.Select(x => x + 50)],
            BottomMm = [.. data.BottomMm.Select(x => x + 50)],
            Content = data.Content,
            Censored = data.Censored,
            Replicates = data.Replicates,
            Weight = data.Weight,
            Years = 25,
            FixedBackground = background,
        };
    }

    // So high a background that the curve would have to rise from it: the end is that of a background alone, its mean and reach by hand.
    [Fact]
    public void LeastSquares_BackgroundEndsWithoutSalt_ThatOfAConstant()
    {
        double[] flat = [1.1, 0.9, 1, 1.05, 0.95, 1, 0.97];
        var data = Data(flat, null, false);
        var objective = new LeastSquaresObjective(data);
        var mean = Weights.Zip(flat, (w, y) => w * y).Sum() / Weights.Sum();
        var least = Weights.Zip(flat, (w, y) => w * Math.Pow(y - mean, 2)).Sum();
        var threshold = 3 * least;

        Assert.Equal(
            mean + Math.Sqrt((threshold - least) / Weights.Sum()),
            objective.End(3, ProfileParameter.Background, true, threshold)!.Value,
            1e-12
        );
    }

    [Fact]
    public void LeastSquares_HeldAboveTheContents_NoExcess()
    {
        var point = new LeastSquaresObjective(Data(Contents, 9, false)).At(3);

        Assert.Equal((0.0, 9.0), (point.Excess, point.Background));
    }

    private static ProfileData Data(
        double[] content,
        double? background,
        bool known,
        int[]? nonDetects = null
    ) =>
        new()
        {
            Rows = [2, 3, 4, 5, 6, 7, 8],
            TopMm = [0, 10, 20, 30, 40, 55, 70],
            BottomMm = [10, 20, 30, 40, 55, 70, 85],
            Content = content,
            Censored = [.. Enumerable.Range(0, 7).Select(i => nonDetects?.Contains(i) ?? false)],
            Replicates = [1, 1, 1, 1, 1, 1, 1],
            Weight = known ? [.. Weights.Select(w => 4 * w)] : Weights,
            ScaleIsKnown = known,
            Years = 25,
            FixedBackground = background,
        };

    private static double[] Shares(ProfileData data, double lnDiffusion) =>
        [
            .. data.TopMm.Zip(
                data.BottomMm,
                (a, b) => SliceMean.Value(a, b, 2 * Math.Sqrt(Math.Exp(lnDiffusion) * 25))
            ),
        ];

    private static double Squares(ProfileData data, double x, double surface, double background) =>
        Shares(data, x)
            .Select(
                (p, i) =>
                    data.Weight[i]
                    * Math.Pow(data.Content[i] - background - ((surface - background) * p), 2)
            )
            .Sum();

    // One of the two given, the other the vertex of its parabola (through three points), clipped to 0 <= C0 <= Cs.
    private static double LeastWith(ProfileData data, double x, double? surface, double? background)
    {
        double At(double free) =>
            surface is { } cs
                ? Squares(data, x, cs, free)
                : Squares(data, x, free, background!.Value);
        var (a, b, c) = (At(0), At(1), At(2));
        var curvature = (a + c - (2 * b)) / 2;
        var vertex = 0.5 - ((b - a) / (2 * curvature));
        return At(
            surface is { } s ? Math.Clamp(vertex, 0, s) : Math.Max(vertex, background!.Value)
        );
    }

    private static double MinusTwoLog(
        ProfileData data,
        ErrorLaw law,
        double x,
        double surface,
        double background,
        double scale
    )
    {
        var share = Shares(data, x);
        var sum = data.ScaleIsKnown ? 0 : 2 * data.DegreesOfFreedom * Math.Log(scale);
        for (var i = 0; i < share.Length; i++)
        {
            var mean = background + ((surface - background) * share[i]);
            var u = Math.Sqrt(data.Weight[i]) * (data.Content[i] - mean) / scale;
            sum += (law, data.Censored[i]) switch
            {
                (ErrorLaw.Normal, false) => u * u,
                (ErrorLaw.Normal, true) => -2
                    * Math.Log(0.5 * MathNet.Numerics.SpecialFunctions.Erfc(-u / Math.Sqrt(2))),
                (_, false) => 5 * Math.Log(1 + (u * u / 4)),
                _ => -2 * Math.Log(MathNet.Numerics.Distributions.StudentT.CDF(0, 1, 4, u)),
            };
        }

        return sum;
    }

    // The least over the free ones of (Cs or C0, scale): golden sections within one another, the negative likelihood having one minimum.
    private static double LeastOf(
        ProfileData data,
        ErrorLaw law,
        double x,
        double? surface,
        double? background,
        bool known
    )
    {
        double OverScale(double cs, double c0) =>
            known
                ? MinusTwoLog(data, law, x, cs, c0, 1)
                : Golden(l => MinusTwoLog(data, law, x, cs, c0, Math.Exp(l)), -5, 2);
        return surface is { } held
            ? data.FixedBackground is { } fixedC0
                ? OverScale(held, fixedC0)
                : Golden(c0 => OverScale(held, c0), 0, Math.Min(held, 3))
            : Golden(cs => OverScale(cs, background!.Value), background!.Value, 12);
    }

    private static double Golden(Func<double, double> function, double left, double right)
    {
        const double Share = 0.6180339887498949;
        for (var i = 0; i < 36; i++)
        {
            var (a, b) = (right - (Share * (right - left)), left + (Share * (right - left)));
            if (function(a) < function(b))
            {
                right = b;
            }
            else
            {
                left = a;
            }
        }

        return function(0.5 * (left + right));
    }

    private static void AssertSame(double? one, double? other)
    {
        Assert.Equal(one is null, other is null);
        if (one is { } expected)
        {
            Assert.Equal(expected, other!.Value, 1e-5 * (1 + Math.Abs(expected)));
        }
    }
}
