using DeckLife.Fitting;
using DeckLife.Numerics.Diffusion;
using DeckLife.Profiles;
using DeckLife.Quantities;
using Xunit;

namespace DeckLife.Tests.Fitting;

/// <summary>Weights that follow the fit, by what they must satisfy once settled; and what a fit leaves out and says of its method.</summary>
public class ProfileSolverTests
{
    private static readonly ProfileFitOptions Plain = new()
    {
        SkipSurface = 0,
        Influence = false,
        LimitsOverErrorKinds = false,
    };

    private static readonly CoreProfile Sound = Cores.Slices(
        25,
        [0, 10, 20, 30, 40, 55, 70],
        [10, 20, 30, 40, 55, 70, 85],
        [5.1, 3.7, 2.35, 1.5, 0.72, 0.38, 0.07]
    );

    // Variance of a slice of r determinations: ((1 - q) g² + q m²) / r, m its fitted content (at least the floor), g their geometric mean.
    [Theory]
    [InlineData(1)]
    [InlineData(0.5)]
    [InlineData(0.1)]
    public void Solve_ShareInProportion_WeightsOfTheirOwnFit(double share)
    {
        var core = Sound.With(s => s with { Replicates = s.Row == 4 ? 3 : 1 });
        var options = Plain with { RelativeFloorShare = 0.05 };
        var data = ProfileDataBuilder.Build(core, core.Slices, options);
        var search = ProfileSolver.Solve(data, options, share);
        var length = 2 * Math.Sqrt(Math.Exp(search.Best.LnDiffusion) * 25);
        double[] means =
        [
            .. core.Slices.Select(s =>
                Math.Max(
                    search.Best.Background
                        + (
                            search.Best.Excess
                            * SliceMean.Value(s.Top.Millimetres, s.Bottom.Millimetres, length)
                        ),
                    0.05 * 5.1
                )
            ),
        ];
        var geometric = Math.Pow(means.Aggregate(1.0, (a, b) => a * b), 1 / 7.0);

        for (var i = 0; i < means.Length; i++)
        {
            var variance =
                (((1 - share) * geometric * geometric) + (share * means[i] * means[i]))
                / (i == 2 ? 3 : 1);
            Assert.Equal(1, search.Objective.Data.Weight[i] * variance, 1e-9);
        }

        // The floor is met by the deepest slice, or the test would not show it.
        Assert.Equal(0.255, means[^1], 1e-12);
    }

    [Fact]
    public void Solve_ConstantErrors_WeightsAreTheDeterminations()
    {
        var core = Sound.With(s => s with { Replicates = s.Row - 1 });
        var data = ProfileDataBuilder.Build(core, core.Slices, Plain);

        Assert.Equal(
            [1.0, 2, 3, 4, 5, 6, 7],
            ProfileSolver.Solve(data, Plain).Objective.Data.Weight
        );
    }

    [Fact]
    public void Build_GivenErrors_InverseVariancesOfKnownScale()
    {
        var core = Sound.With(s => s with { StandardDeviation = 0.1 * s.Row });
        var data = ProfileDataBuilder.Build(
            core,
            core.Slices,
            Plain with
            {
                Weights = SliceWeights.Given,
                Background = BackgroundTreatment.Fixed,
                FixedBackground = ChlorideContent.FromKilogramsPerCubicMetre(0.2),
            }
        );

        Assert.True(data.ScaleIsKnown);
        Assert.Equal(0.2, data.FixedBackground);
        Assert.Equal(2, data.FreeParameters);
        Assert.Equal(5, data.DegreesOfFreedom);
        Assert.Equal(1 / (0.2 * 0.2), data.Weight[0], 1e-9);
        Assert.Equal(1 / (0.8 * 0.8), data.Weight[^1], 1e-9);
    }

    [Fact]
    public void Without_OneSlice_AllColumnsStayTogether()
    {
        var core = Sound.With(s => s with { Replicates = s.Row, IsNonDetect = s.Row == 8 });
        var data = ProfileDataBuilder.Build(core, core.Slices, Plain);
        var rest = data.Without(2);

        Assert.Equal([2, 3, 5, 6, 7, 8], rest.Rows);
        Assert.Equal([0.0, 10, 30, 40, 55, 70], rest.TopMm);
        Assert.Equal([10.0, 20, 40, 55, 70, 85], rest.BottomMm);
        Assert.Equal([5.1, 3.7, 1.5, 0.72, 0.38, 0.07], rest.Content);
        Assert.Equal([2.0, 3, 5, 6, 7, 8], rest.Weight);
        Assert.Equal([2.0, 3, 5, 6, 7, 8], rest.Replicates);
        Assert.Equal([false, false, false, false, false, true], rest.Censored);
        Assert.Equal((6, 5, 2), (rest.Count, rest.Detected, rest.DegreesOfFreedom));
    }

    // Leaving a slice out is fitting the core without it.
    [Fact]
    public void Influence_EachSlice_FitOfTheCoreWithoutIt()
    {
        var fit = ProfileFitter.Fit(Sound, Plain with { Influence = true });

        Assert.Equal(fit.Slices.Select(s => s.Row), fit.Influence.Select(i => i.Row));
        foreach (var influence in fit.Influence)
        {
            var without = ProfileFitter.Fit(
                Sound with
                {
                    Slices = [.. Sound.Slices.Where(s => s.Row != influence.Row)],
                },
                Plain
            );
            Assert.Equal(
                1,
                influence.DiffusionCoefficient!.Value / without.DiffusionCoefficient!.Value,
                1e-9
            );
            Assert.Equal(
                1,
                influence.SurfaceChloride!.Value / without.SurfaceChloride!.Value,
                1e-9
            );
        }

        Assert.Empty(ProfileFitter.Fit(Sound, Plain).Influence);
    }

    // Four slices less one are as many as parameters: an exact fit, which only least squares has.
    [Theory]
    [InlineData(ErrorLaw.Normal, 4)]
    [InlineData(ErrorLaw.Student, 0)]
    public void Influence_ExactRest_OnlyForLeastSquares(ErrorLaw law, int count)
    {
        var core = Sound with { Slices = [.. Sound.Slices.Take(4)] };

        Assert.Equal(
            count,
            ProfileFitter.Fit(core, Plain with { Influence = true, Law = law }).Influence.Length
        );
    }

    // Non-detects are a likelihood only with a degree of freedom: four measured slices can spare the non-detect alone, five can spare any.
    [Theory]
    [InlineData(4, 1)]
    [InlineData(5, 6)]
    public void Influence_NonDetects_OnlyWhereALikelihoodIsLeft(int measured, int count)
    {
        var core = Sound with
        {
            Slices =
            [
                .. Sound
                    .Slices.Take(measured + 1)
                    .Select(s => s with { IsNonDetect = s.Row == measured + 2 }),
            ],
        };
        var influence = ProfileFitter.Fit(core, Plain with { Influence = true }).Influence;

        Assert.Equal(count, influence.Length);
        Assert.Contains(influence, i => i.Row == measured + 2);
    }

    // Asked for as points, the contents are those of the centres.
    [Fact]
    public void AsPoints_Slices_TheFitOfTheirCentres()
    {
        var centres = Sound.With(s =>
            s with
            {
                Top = Depth.FromMillimetres(s.CentreMm),
                Bottom = Depth.FromMillimetres(s.CentreMm),
            }
        );

        Assert.Equal(
            ProfileFitter.Fit(centres, Plain).DiffusionCoefficient,
            ProfileFitter.Fit(Sound, Plain with { AsPoints = true }).DiffusionCoefficient
        );
        Assert.NotEqual(
            ProfileFitter.Fit(centres, Plain).DiffusionCoefficient,
            ProfileFitter.Fit(Sound, Plain).DiffusionCoefficient
        );
    }

    // A search whose stated lower end lies above what the remaining depths allow has no fit without the slice.
    [Fact]
    public void Influence_SearchEmptyWithoutTheSlice_NoNumbers()
    {
        var core = Cores.Slices(
            25,
            [0, 0.2, 0.4, 0.6, 60],
            [0.2, 0.4, 0.6, 0.8, 80],
            [5.2, 5.0, 5.1, 4.9, 1.1]
        );
        // 20 times 0.7 mm is 14 mm: D up to 1.96 without the deepest slice.
        var fit = ProfileFitter.Fit(
            core,
            Plain with
            {
                Influence = true,
                Background = BackgroundTreatment.Fixed,
                FixedBackground = ChlorideContent.FromKilogramsPerCubicMetre(0),
                SearchLow = DiffusionCoefficient.FromSquareMillimetresPerYear(2),
            }
        );

        Assert.NotEqual(FitStatus.Refused, fit.Status);
        Assert.Null(fit.Influence.Single(i => i.Row == 6).DiffusionCoefficient);
        Assert.NotNull(fit.Influence.Single(i => i.Row == 2).DiffusionCoefficient);
    }

    [Theory]
    [InlineData(
        SliceWeights.Constant,
        ErrorLaw.Normal,
        false,
        "slice means; normal errors; one standard deviation for all slices, estimated"
    )]
    [InlineData(
        SliceWeights.Relative,
        ErrorLaw.Student,
        false,
        "slice means; Student's t with 4 degrees of freedom errors; errors in proportion to the fitted content, estimated (iteratively reweighted least squares)"
    )]
    [InlineData(
        SliceWeights.Given,
        ErrorLaw.Normal,
        true,
        "contents at mid-depth; normal errors, censored likelihood; standard deviations given for each slice"
    )]
    public void Method_Choices_Said(SliceWeights weights, ErrorLaw law, bool points, string method)
    {
        var core = Sound.With(s =>
            s with
            {
                StandardDeviation = 0.1,
                IsNonDetect = points && s.Row == 8,
            }
        );

        Assert.Equal(
            method,
            ProfileFitter
                .Fit(core, Plain with { Weights = weights, Law = law, AsPoints = points })
                .Method
        );
    }

    // Standard deviation of a slice: the scale over the root of its weight; of relative errors in proportion to the fitted content.
    [Fact]
    public void Slices_RelativeErrors_StandardDeviationInProportion()
    {
        var fit = ProfileFitter.Fit(Sound, Plain with { Weights = SliceWeights.Relative });
        var share = fit.Slices[0].StandardDeviation / fit.Slices[0].Fitted;
        var chi = fit.Slices.Sum(s => Math.Pow((s.Measured - s.Fitted) / s.StandardDeviation, 2));

        Assert.All(
            fit.Slices,
            s =>
                Assert.Equal(
                    share,
                    s.StandardDeviation / Math.Max(s.Fitted, 0.02 * 5.1),
                    1e-9 * share
                )
        );
        // The scale is estimated: the scaled residuals have the sum of squares of their degrees of freedom.
        Assert.Equal(4, chi, 1e-9);
        Assert.All(fit.Slices, s => Assert.Equal(1, s.Weight));
    }

    [Fact]
    public void Slices_NonDetects_NoShareOfTheResidualDeviationAndNoR()
    {
        var core = Sound.With(s =>
            s.Row == 8
                ? s with
                {
                    IsNonDetect = true,
                    Content = ChlorideContent.FromKilogramsPerCubicMetre(0.3),
                }
                : s
        );
        var fit = ProfileFitter.Fit(core, Plain);

        Assert.Null(fit.RSquared);
        Assert.Equal(3, fit.DegreesOfFreedom);
        Assert.Equal(
            Math.Sqrt(
                fit.Slices.Where(s => !s.IsNonDetect).Sum(s => Math.Pow(s.Measured - s.Fitted, 2))
                    / 3
            ),
            fit.ResidualStandardDeviation!.Value,
            1e-12
        );
    }

    // Weight of a slip under Student's t with 4 degrees of freedom: 4 / (4 + u²).
    [Fact]
    public void Slices_StudentErrors_WeightsFromTheScaledResiduals()
    {
        var fit = ProfileFitter.Fit(Sound, Plain with { Law = ErrorLaw.Student });

        Assert.All(
            fit.Slices,
            s =>
            {
                var u = (s.Measured - s.Fitted) / s.StandardDeviation;
                Assert.Equal(4 / (4 + (u * u)), s.Weight, 1e-12);
            }
        );
    }

    // Information of Student's t: (4 + 1) / (4 + 3) of that of normal errors of the same scale.
    [Fact]
    public void Covariance_StudentErrors_SevenFifthsOfThatOfNormalErrors()
    {
        var data = ProfileDataBuilder.Build(Sound, Sound.Slices, Plain);
        var search = ProfileSolver.Solve(data, Plain);
        var normal = ProfileCovariance.Compute(search, ErrorLaw.Normal, true)!;
        var student = ProfileCovariance.Compute(search, ErrorLaw.Student, true)!;

        Assert.All(normal.Zip(student), p => Assert.Equal(p.First * 7 / 5, p.Second, 1e-9));
    }

    // ln of the determinant of J'WJ in (Cs, ln D, C0), J by central differences of the curve; without C0 where it is held.
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void LogInformation_BackgroundFreeOrHeld_DeterminantOfTheFreeNumbers(bool held)
    {
        var options = held
            ? Plain with
            {
                Background = BackgroundTreatment.Fixed,
                FixedBackground = ChlorideContent.FromKilogramsPerCubicMetre(0.1),
            }
            : Plain;
        var core = Sound.With(s => s with { Replicates = s.Row });
        var search = ProfileSolver.Solve(
            ProfileDataBuilder.Build(core, core.Slices, options),
            options
        );
        double Content(ChlorideSlice s, double cs, double x, double c0) =>
            c0
            + (
                (cs - c0)
                * SliceMean.Value(
                    s.Top.Millimetres,
                    s.Bottom.Millimetres,
                    2 * Math.Sqrt(Math.Exp(x) * 25)
                )
            );
        const double H = 1e-5;
        var (a, b, c) = (search.Best.Surface, search.Best.LnDiffusion, search.Best.Background);
        var jacobian = MathNet.Numerics.LinearAlgebra.Matrix<double>.Build.Dense(
            7,
            held ? 2 : 3,
            (i, k) =>
            {
                var s = core.Slices[i];
                var (da, db, dc) = (k == 0 ? H : 0, k == 1 ? H : 0, k == 2 ? H : 0);
                return Math.Sqrt(s.Row)
                    * (Content(s, a + da, b + db, c + dc) - Content(s, a - da, b - db, c - dc))
                    / (2 * H);
            }
        );

        Assert.Equal(
            Math.Log((jacobian.Transpose() * jacobian).Determinant()),
            ProfileCovariance.LogInformation(search, ErrorLaw.Normal)!.Value,
            1e-6
        );
    }

    // A non-detect carries the curvature of -ln F((limit - mean) / scale), here by differences of the distribution function; a measured slice
    // that of its square, under Student's t in expectation 5/7 of it. The inverse by another library's call.
    [Theory]
    [InlineData(ErrorLaw.Normal)]
    [InlineData(ErrorLaw.Student)]
    public void Covariance_NonDetects_CurvatureOfTheirProbability(ErrorLaw law)
    {
        var core = Sound.With(s =>
            s.Row >= 7
                ? s with
                {
                    IsNonDetect = true,
                    Content = ChlorideContent.FromKilogramsPerCubicMetre(0.4),
                }
                : s
        );
        var options = Plain with { Law = law };
        var fit = ProfileFitter.Fit(core, options);
        var search = ProfileSolver.Solve(
            ProfileDataBuilder.Build(core, core.Slices, options),
            options
        );
        var (best, length) = (search.Best, 2 * Math.Sqrt(Math.Exp(search.Best.LnDiffusion) * 25));
        double MinusLog(double u) =>
            -Math.Log(
                law == ErrorLaw.Student
                    ? MathNet.Numerics.Distributions.StudentT.CDF(0, 1, 4, u)
                    : MathNet.Numerics.Distributions.Normal.CDF(0, 1, u)
            );
        var information = MathNet.Numerics.LinearAlgebra.Matrix<double>.Build.Dense(3, 3);
        foreach (var s in core.Slices)
        {
            var share = SliceMean.Value(
                s.Top.Millimetres,
                s.Bottom.Millimetres,
                length,
                out var slope
            );
            var row = MathNet.Numerics.LinearAlgebra.Vector<double>.Build.Dense([
                share,
                best.Excess * slope,
                1 - share,
            ]);
            var u =
                (s.Content.KilogramsPerCubicMetre - best.Background - (best.Excess * share))
                / best.Scale;
            const double H = 1e-3;
            var curvature =
                s.IsNonDetect ? (MinusLog(u + H) - (2 * MinusLog(u)) + MinusLog(u - H)) / (H * H)
                : law == ErrorLaw.Student ? 5.0 / 7
                : 1;
            information += curvature / (best.Scale * best.Scale) * row.OuterProduct(row);
        }

        var inverse = information.Inverse();
        for (var i = 0; i < 9; i++)
        {
            Assert.Equal(
                inverse[i / 3, i % 3],
                fit.Covariance[i],
                1e-4 * Math.Sqrt(inverse[i / 3, i / 3] * inverse[i % 3, i % 3])
            );
        }
    }

    // Given deviations are kept where the residuals keep to them, and widened by the root of chi-square over its degrees where not.
    [Theory]
    [InlineData(1.0, false)]
    [InlineData(0.01, true)]
    public void Slices_GivenErrors_WidenedOnlyWhereExceeded(double sd, bool exceeded)
    {
        var fit = ProfileFitter.Fit(
            Sound.With(s => s with { StandardDeviation = sd }),
            Plain with
            {
                Weights = SliceWeights.Given,
            }
        );
        var chi = fit.Slices.Sum(s => Math.Pow((s.Measured - s.Fitted) / sd, 2));

        Assert.Equal(exceeded, chi > 4);
        Assert.All(
            fit.Slices,
            s =>
                Assert.Equal(
                    exceeded ? sd * Math.Sqrt(chi / 4) : sd,
                    s.StandardDeviation,
                    1e-9 * sd
                )
        );
    }

    // Where the kind of error is not stated, the limits of constant ones stand beside; where it is, or C0 is held, there is nothing beside.
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void Estimates_KindNotStated_LimitsOfConstantErrorsBeside(bool held)
    {
        var options = held
            ? Plain with
            {
                Background = BackgroundTreatment.Fixed,
                FixedBackground = ChlorideContent.FromKilogramsPerCubicMetre(0.05),
            }
            : Plain;
        var stated = ProfileFitter.Fit(Sound, options);
        var fit = ProfileFitter.Fit(Sound, options with { LimitsOverErrorKinds = true });
        (Estimate Stated, Estimate Beside)[] pairs =
        [
            (stated.SurfaceChloride!, fit.SurfaceChloride!),
            (stated.DiffusionCoefficient!, fit.DiffusionCoefficient!),
            (stated.Background!, fit.Background!),
        ];

        foreach (var (one, other) in pairs)
        {
            Assert.Equal(one.Value, other.Value);
            Assert.Equal(one.Lower95, other.ConstantErrorsLower95);
            Assert.Equal(one.Upper95, other.ConstantErrorsUpper95);
            Assert.Null(one.ConstantErrorsLower95);
            Assert.Null(one.ConstantErrorsUpper95);
            Assert.False(other.Lower95 > one.Lower95 || other.Upper95 < one.Upper95);
        }

        Assert.Equal(held, fit.Background!.ConstantErrorsUpper95 is null);
        Assert.NotNull(fit.OtherWeights);
        Assert.Null(stated.OtherWeights);
    }

    // The plain interval is t standard errors either side: 2.776445105 at 4 degrees of freedom.
    [Fact]
    public void Estimates_PlainIntervals_TStandardErrorsEitherSide()
    {
        var fit = ProfileFitter.Fit(Sound, Plain);

        foreach (
            var estimate in new[]
            {
                fit.SurfaceChloride!,
                fit.DiffusionCoefficient!,
                fit.Background!,
            }
        )
        {
            var reach = 2.776445105 * estimate.StandardError!.Value;
            Assert.Equal(estimate.Value - reach, estimate.PlainLower95!.Value, 1e-7);
            Assert.Equal(estimate.Value + reach, estimate.PlainUpper95!.Value, 1e-7);
            Assert.Equal("profile likelihood, F(1, 4) cut", estimate.LimitMethod);
        }

        Assert.Equal(
            "profile likelihood, chi-square cut of known errors",
            ProfileFitter
                .Fit(
                    Sound.With(s => s with { StandardDeviation = 0.1 }),
                    Plain with
                    {
                        Weights = SliceWeights.Given,
                    }
                )
                .SurfaceChloride!.LimitMethod
        );
    }
}
