using DeckLife.Mapping;
using DeckLife.Numerics.LinearMixed;
using DeckLife.Population;
using DeckLife.Surveys;
using DeckLife.Tests.Projection;
using FsCheck;
using FsCheck.Fluent;
using FsCheck.Xunit;
using Xunit;

namespace DeckLife.Tests.Mapping;

public class SeverityFieldTests
{
    [Fact]
    public void Given_NormalReadings_EqualsTheClosedForm()
    {
        // f ~ N(m, K), readings y = f + e: posterior mean m + K (K + S)⁻¹ (y − m), evidence N(y; m, K + S).
        const int N = 6;
        double[] mean = [0.1, -0.2, 0.3, 0, 0.2, -0.1],
            reading = [0.9, 0.4, -1.1, 0.2, 1.5, -0.3];
        const double Noise = 0.4;
        var covariance = Covariance(N);
        var field = new SeverityField(mean, covariance, 0.5);

        var (mode, sd, evidence) = field.Given(
            (i, f) =>
                (
                    -0.5 * (f - reading[i]) * (f - reading[i]) / Noise
                        - 0.5 * Math.Log(2 * Math.PI * Noise),
                    (reading[i] - f) / Noise,
                    -1 / Noise
                )
        );

        var sum = (double[])covariance.Clone();
        for (var i = 0; i < N; i++)
        {
            sum[i * N + i] += Noise;
        }

        Assert.True(SymmetricMatrix.Factor(sum, N));
        double[] gap = [.. reading.Select((y, i) => y - mean[i])];
        SymmetricMatrix.SolveLower(sum, N, gap);
        var expected =
            -0.5 * gap.Sum(g => g * g)
            - 0.5 * SymmetricMatrix.LogDeterminant(sum, N)
            - N / 2.0 * Math.Log(2 * Math.PI);
        SymmetricMatrix.SolveUpper(sum, N, gap);
        var inverse = SymmetricMatrix.Inverse(sum, N);
        for (var i = 0; i < N; i++)
        {
            var shift = 0.0;
            var variance = covariance[i * N + i];
            for (var j = 0; j < N; j++)
            {
                shift += covariance[i * N + j] * gap[j];
                for (var k = 0; k < N; k++)
                {
                    variance -= covariance[i * N + j] * inverse[j * N + k] * covariance[k * N + i];
                }
            }

            Assert.Equal(mean[i] + shift, mode[i], 1e-10);
            Assert.Equal(Math.Sqrt(variance), sd[i], 1e-10);
        }

        Assert.Equal(expected, evidence, 1e-10);
    }

    [Fact]
    public void Given_NothingSeen_IsThePriorAndItsEvidenceIsZero()
    {
        double[] mean = [0.1, -0.2, 0.3];
        var field = new SeverityField(mean, Covariance(3), 0.5);

        var (mode, sd, evidence) = field.Given((_, _) => default);

        Assert.Equal(mean, mode);
        Assert.All(sd, s => Assert.Equal(1, s, 1e-12));
        Assert.Equal(0, evidence, 1e-12);
    }

    [Theory]
    [InlineData(-450)]
    [InlineData(-330)]
    [InlineData(-250)]
    [InlineData(-100)]
    public void Given_OnePotential_ShareOfTheCellAgreesWithQuadrature(double potential)
    {
        var limits = new SeverityLimits(-0.7, -1.3, Math.Sqrt(0.5));
        var cell = Cell(0, potential);
        var field = new SeverityField([0], [0.5], limits.LocalSd);

        var (mode, sd, _) = field.Given((_, f) => cell.Log(f, limits, 0.9));
        double byLaplace = 0,
            exact = 0,
            mass = 0;
        for (var z = -6.0; z <= 6; z += 0.01)
        {
            var weight = Math.Exp(-0.5 * z * z);
            byLaplace +=
                weight
                * cell.Shares(mode[0] + sd[0] * z, limits, 0.9).Active
                * 0.01
                / Math.Sqrt(2 * Math.PI);
            var f = z * Math.Sqrt(0.5);
            var posterior = weight * Math.Exp(cell.Log(f, limits, 0.9).Log);
            exact += posterior * cell.Shares(f, limits, 0.9).Active;
            mass += posterior;
        }

        // The likelihood of one potential between both kinds of bar is skewed: the normal about its mode is 0.03 off at most.
        Assert.Equal(exact / mass, byLaplace, 0.035);
    }

    [Property(MaxTest = 200)]
    public Property Log_AnyCell_DerivativesAreItsOwn()
    {
        var numbers = Gen.Choose(0, 10_000).Select(i => i / 10_000.0).ArrayOf(6);
        return Prop.ForAll(
            numbers.ToArbitrary(),
            u =>
            {
                var limits = new SeverityLimits(
                    u[0] * 2 - 1.5,
                    u[0] * 2 - 1.5 - u[1],
                    0.3 + 0.6 * u[2]
                );
                var cell = Cell(u[3], -100 - 350 * u[4], -200 - 200 * u[0]);
                var f = 3 * u[5] - 1.5;
                const double Seen = 0.85,
                    Step = 1e-4;
                var (_, first, second) = cell.Log(f, limits, Seen);
                var (up, down, here) = (
                    cell.Log(f + Step, limits, Seen).Log,
                    cell.Log(f - Step, limits, Seen).Log,
                    cell.Log(f, limits, Seen).Log
                );
                var slope = (up - down) / (2 * Step);
                var bend = (up - 2 * here + down) / (Step * Step);
                return Math.Abs(slope - first) < 1e-4 * (1 + Math.Abs(first))
                    && Math.Abs(bend - second) < 2e-3 * (1 + Math.Abs(second));
            }
        );
    }

    [Property(MaxTest = 200)]
    public Property Shares_AnyCell_AreOrderedAndKeepWhatWasFound()
    {
        var numbers = Gen.Choose(0, 10_000).Select(i => i / 10_000.0).ArrayOf(5);
        return Prop.ForAll(
            numbers.ToArbitrary(),
            u =>
            {
                var limits = new SeverityLimits(u[0] * 3 - 2, u[0] * 3 - 2 - u[1], 0.2 + u[2]);
                var cell = Cell(u[3], -250);
                var (active, damaged) = cell.Shares(4 * u[4] - 2, limits, 0.9);
                var later = cell.Later(4 * u[4] - 2, limits, 0.9, limits.DamagedScore + u[1]);
                return active <= 1 + 1e-12
                    && damaged >= cell.Unsound - 1e-12
                    && damaged <= later + 1e-9
                    && (active >= damaged - 1e-9);
            }
        );
    }

    private static double[] Covariance(int n)
    {
        var matrix = new double[n * n];
        for (var i = 0; i < n; i++)
        {
            for (var j = 0; j < n; j++)
            {
                matrix[i * n + j] = Math.Exp(-Math.Abs(i - j) / 2.0);
            }
        }

        return matrix;
    }

    // One cell of 6 m by 1 m, sounded; a strip of it hollow, nodes beyond the strip.
    private static PlaceEvidence Cell(double hollow, params double[] potentials)
    {
        var strip = Math.Round(6 * hollow * 0.8) / 6;
        var deck = ExampleDecks.Plain with
        {
            AreaM2 = 6,
            Surveys = new(),
            Soundings =
            [
                new()
                {
                    Row = 2,
                    Finding = SoundingFinding.Delaminated,
                    AreaM2 = 6 * strip,
                    Corners = [(-0.001, 0), (6 * strip, 0), (6 * strip, 1), (-0.001, 1)],
                },
            ],
            HalfCells =
            [
                .. potentials.Select((p, i) => new HalfCellReading(i + 3, 5.9 - 0.01 * i, 0.5, p)),
            ],
        };
        var grid = new DeckGrid(new DeckPlan(0, 6, 0, 1), 1, 1);
        return PlaceEvidence.Of(
            deck,
            grid,
            new SurveyEvidence
            {
                UnsoundShare = strip,
                PotentialsMv = potentials,
                NodesAreOnSoundPlaces = true,
            }
        )[0];
    }
}
