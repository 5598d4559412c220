using DeckLife.Fitting;
using DeckLife.Numerics.Diffusion;
using DeckLife.Numerics.Sampling;
using DeckLife.Profiles;
using Xunit;

namespace DeckLife.Tests.Fitting;

/// <summary>Limits where the kind of error is not stated; that they hold is the coverage study's to show.</summary>
public class ErrorKindLimitsTests
{
    private static readonly ProfileFitOptions Unstated = new()
    {
        SkipSurface = 0,
        Influence = false,
    };

    private static readonly ProfileFitOptions Constant = Unstated with
    {
        LimitsOverErrorKinds = false,
    };

    private static readonly ProfileFitOptions Relative = Constant with
    {
        Weights = SliceWeights.Relative,
    };

    // Six slices say little of the kind: the limits reach as far as those of the likelier kind, the estimates stay those of constant errors.
    [Theory]
    [InlineData(0.12, 0)]
    [InlineData(0, 0.08)]
    public void Limits_SixSlices_SpanTheLikelyKindsAndKeepTheEstimate(double sd, double share)
    {
        for (var i = 0; i < 10; i++)
        {
            var core = Core(6, sd, share, (ulong)i);
            var d = ProfileFitter.Fit(core, Unstated).DiffusionCoefficient!;
            var constant = ProfileFitter.Fit(core, Constant).DiffusionCoefficient!;

            Assert.Equal(constant.Value, d.Value);
            Assert.Equal(constant.StandardError, d.StandardError);
            Assert.Equal(constant.Lower95, d.ConstantErrorsLower95);
            Assert.Equal(constant.Upper95, d.ConstantErrorsUpper95);
            Assert.False(d.Lower95 > d.Value || d.Upper95 < d.Value);
            Assert.Null(constant.ConstantErrorsLower95);
        }
    }

    // Sixty slices tell the kind: the limits come near to those of the kind that is, and far from those of the other.
    [Theory]
    [InlineData(0.12, 0, false)]
    [InlineData(0, 0.08, true)]
    public void Limits_SixtySlices_NearThoseOfTheRightKind(double sd, double share, bool relative)
    {
        var core = Core(60, sd, share, 3);
        var cs = ProfileFitter.Fit(core, Unstated).SurfaceChloride!;
        var right = ProfileFitter.Fit(core, relative ? Relative : Constant).SurfaceChloride!;
        var wrong = ProfileFitter.Fit(core, relative ? Constant : Relative).SurfaceChloride!;

        var near = Math.Abs(Width(cs) / Width(right) - 1);
        Assert.True(near < 0.35, $"{Width(cs)} {Width(right)} {Width(wrong)}");
        Assert.True(near < 0.5 * Math.Abs(Width(cs) / Width(wrong) - 1));
    }

    // A stated kind, given errors and the bootstrap have limits of their own.
    [Fact]
    public void Limits_KindStatedOrBootstrap_NotOverTheKinds()
    {
        var core = Core(6, 0.12, 0, 1);
        ProfileFitOptions[] others =
        [
            Unstated with
            {
                Weights = SliceWeights.Relative,
            },
            Unstated with
            {
                Limits = LimitMethod.Bootstrap,
                BootstrapReplicates = 200,
            },
        ];

        foreach (var options in others)
        {
            var d = ProfileFitter.Fit(core, options).DiffusionCoefficient!;
            Assert.Null(d.ConstantErrorsLower95);
            Assert.DoesNotContain("over errors", d.LimitMethod!, StringComparison.Ordinal);
        }
    }

    // The scale of the errors is taken out of the restricted likelihood: weights seven times as large are the same kind of error,
    // since 7 enters the weights n times, the determinant p times and the sum of squares n - p times.
    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    public void LogLikelihood_WeightsTimesAConstant_SameKindOfError(double share)
    {
        var core = Core(8, 0.12, 0, 4);
        var data = ProfileDataBuilder.Build(core, core.Slices, Constant);
        double At(double factor)
        {
            var weights = ProfileSolver.Solve(data, Constant, share).Objective.Data.Weight;
            var search = ProfileSolver.Solve(
                data.WithWeights([.. weights.Select(w => factor * w)]),
                Constant
            );
            return ErrorKindLimits.LogLikelihood(search, ErrorLaw.Normal)!.Value;
        }

        Assert.Equal(At(1), At(7), 1e-7);
    }

    private static double Width(Estimate estimate) =>
        estimate.Upper95!.Value - estimate.Lower95!.Value;

    // Cs 6, D 20 mm²/yr, C0 0.2 kg/m³, 25 yr, slices from 6 to 84 mm.
    private static CoreProfile Core(int slices, double sd, double share, ulong index)
    {
        var random = new RandomStream(17, "error kinds", index);
        var length = 2 * Math.Sqrt(20 * 25);
        double[] edges = [.. Enumerable.Range(0, slices + 1).Select(i => 6 + (78.0 * i / slices))];
        return Cores.Slices(
            25,
            edges[..^1],
            edges[1..],
            [
                .. edges[..^1]
                    .Zip(
                        edges[1..],
                        (a, b) =>
                        {
                            var mean = 0.2 + (5.8 * SliceMean.Value(a, b, length));
                            return Math.Max(
                                0,
                                mean + ((sd + (share * mean)) * random.NextNormal())
                            );
                        }
                    ),
            ]
        );
    }
}
