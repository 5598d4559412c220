using System.Globalization;
using System.Runtime.CompilerServices;
using DeckLife.Numerics.Sampling;
using DeckLife.Numerics.Vectors;
using Xunit;

namespace DeckLife.Numerics.Tests.Vectors;

public class LaneMathTests
{
    public static TheoryData<LaneWidth> Widths => [.. VectorWidth.Available];

    // erfc to 17 digits: mpmath 1.2.1, mp.erfc at 30 digits, arguments as doubles.
    private static readonly (double X, double Erfc)[] ErfcTable =
    [
        (-3, 1.9999779095030014),
        (-0.5, 1.5204998778130465),
        (0, 1.0),
        (0.001, 0.99887162120903076),
        (0.1, 0.8875370839817151),
        (0.25, 0.72367360983176307),
        (0.5, 0.47950012218695346),
        (0.75, 0.28884436634648487),
        (1, 0.15729920705028513),
        (1.25, 0.07709987174354177),
        (1.5, 0.033894853524689273),
        (2, 0.0046777349810472658),
        (2.5, 0.00040695201744495894),
        (3, 2.2090496998585441e-5),
        (4, 1.5417257900280019e-8),
        (5, 1.5374597944280349e-12),
        (6.5, 3.8421483271206475e-20),
        (10, 2.0884875837625448e-45),
        (15, 7.2129941724512067e-100),
        (20, 5.3958656116079009e-176),
        (25, 8.3001725711965228e-274),
        (26, 5.6631924088561428e-296),
    ];

    // Normal quantiles to 17 digits: mpmath 1.2.1, -sqrt(2) erfcinv(2p) by Newton at 40 digits, p as doubles.
    private static readonly (double P, double Z)[] QuantileTable =
    [
        (1e-300, -37.047096299361199),
        (1e-100, -21.273453560965324),
        (1e-20, -9.2623400897984076),
        (1e-10, -6.3613409024040562),
        (1e-05, -4.2648907939228246),
        (0.0006, -3.2388801183529777),
        (0.00063, -3.2249378927679089),
        (0.001, -3.0902323061678135),
        (0.01, -2.3263478740408411),
        (0.025, -1.9599639845400542),
        (0.1, -1.2815515655446004),
        (0.25, -0.67448975019608174),
        (0.4, -0.25334710313579974),
        (0.5, 0),
        (0.500001, 2.5066282747057052e-6),
        (0.6, 0.25334710313579974),
        (0.75, 0.67448975019608174),
        (0.9, 1.2815515655446006),
        (0.95, 1.6448536269514723),
        (0.99, 2.3263478740408408),
        (0.9999, 3.7190164854557084),
        (0.9999999999, 6.3613408896974219),
    ];

    [Theory]
    [MemberData(nameof(Widths))]
    public void Erfc_AgainstTable_FifteenDigits(LaneWidth width)
    {
        var x = ErfcTable.Select(e => e.X).ToArray();
        var found = new double[x.Length];
        VectorFunctions.Apply(2, x, found, width);
        for (var i = 0; i < x.Length; i++)
        {
            var relative = Math.Abs((found[i] / ErfcTable[i].Erfc) - 1);
            Assert.True(
                relative < 5e-15,
                FormattableString.Invariant($"erfc({x[i]:R}) off by {relative:E2}")
            );
        }
    }

    [Theory]
    [MemberData(nameof(Widths))]
    public void NormalQuantile_AgainstTable_StatedAccuracy(LaneWidth width)
    {
        var p = QuantileTable.Select(e => e.P).ToArray();
        var found = new double[p.Length];
        VectorFunctions.Apply(4, p, found, width);
        for (var i = 0; i < p.Length; i++)
        {
            var z = QuantileTable[i].Z;
            var error = Math.Abs(found[i] - z) / Math.Max(1, Math.Abs(z));
            Assert.True(
                error < 2e-15,
                FormattableString.Invariant($"quantile({p[i]:R}) off by {error:E2}")
            );
        }
    }

    [Theory]
    [MemberData(nameof(Widths))]
    public void Exp_AgainstLibrary_StatedAccuracy(LaneWidth width)
    {
        var stream = new RandomStream(1, "exp");
        var x = Enumerable
            .Range(0, 20000)
            .Select(_ => (1416 * stream.NextUniform()) - 708)
            .ToArray();
        var found = new double[x.Length];
        VectorFunctions.Apply(0, x, found, width);
        for (var i = 0; i < x.Length; i++)
        {
            Assert.InRange(found[i] / Math.Exp(x[i]), 1 - 5e-16, 1 + 5e-16);
        }

        double[] edges = [-709, -1e9, 0, -0.0];
        VectorFunctions.Apply(0, edges, edges, width);
        Assert.Equal([0, 0, 1, 1], edges);
    }

    [Theory]
    [MemberData(nameof(Widths))]
    public void Log_AgainstLibrary_StatedAccuracy(LaneWidth width)
    {
        var stream = new RandomStream(1, "log");
        var x = Enumerable
            .Range(0, 20000)
            .Select(i =>
                i % 2 == 0
                    ? 0.3 + (3 * stream.NextUniform())
                    : Math.Exp((1400 * stream.NextUniform()) - 700)
            )
            .ToArray();
        var found = new double[x.Length];
        VectorFunctions.Apply(1, x, found, width);
        for (var i = 0; i < x.Length; i++)
        {
            var exact = Math.Log(x[i]);
            Assert.Equal(0, (found[i] - exact) / Math.Max(1, Math.Abs(exact)), 4e-16);
        }
    }

    [Theory]
    [MemberData(nameof(Widths))]
    public void Erfc_AgainstMathNet_OverTheRange(LaneWidth width)
    {
        var stream = new RandomStream(2, "erfc");
        var x = Enumerable.Range(0, 20001).Select(_ => (12 * stream.NextUniform()) - 6).ToArray();
        var found = new double[x.Length];
        VectorFunctions.Apply(2, x, found, width);
        for (var i = 0; i < x.Length; i++)
        {
            // MathNet's own error grows to 3.5e-15 at x = 6.
            Assert.InRange(found[i] / MathNet.Numerics.SpecialFunctions.Erfc(x[i]), 1 - 8e-15, 1 + 8e-15);
        }
    }

    [Theory]
    [MemberData(nameof(Widths))]
    public void NormalCdf_OfQuantile_GivesTheProbabilityBack(LaneWidth width)
    {
        var stream = new RandomStream(3, "round trip");
        var p = Enumerable
            .Range(0, 10007)
            .Select(i => Math.Pow(stream.NextUniform(), 1 + (i % 20)))
            .ToArray();
        var z = new double[p.Length];
        VectorFunctions.Apply(4, p, z, width);
        VectorFunctions.Apply(3, z, z, width);
        for (var i = 0; i < p.Length; i++)
        {
            // An error of 2e-15 in z is one of 2e-15 z (z + 1/z) in ln p.
            Assert.InRange(z[i] / p[i], 1 - 1e-11, 1 + 1e-11);
        }
    }

    [Fact]
    public void Widths_VectorPaths_SameBits()
    {
        if (VectorWidth.InUse < LaneWidth.Eight)
        {
            return; // skipped: this machine has no second vector width
        }

        var stream = new RandomStream(4, "bits");
        var x = Enumerable.Range(0, 4096).Select(_ => 1e-9 + stream.NextUniform()).ToArray();
        var wide = new double[x.Length];
        var narrow = new double[x.Length];
        for (var code = 0; code < 5; code++)
        {
            VectorFunctions.Apply(code, x, wide, LaneWidth.Eight);
            VectorFunctions.Apply(code, x, narrow, LaneWidth.Four);
            Assert.Equal(
                wide.Select(BitConverter.DoubleToInt64Bits),
                narrow.Select(BitConverter.DoubleToInt64Bits)
            );
        }
    }

    [Theory]
    [MemberData(nameof(Widths))]
    public void Apply_ElementAnywhereInTheSpan_SameBits(LaneWidth width)
    {
        var stream = new RandomStream(5, "place");
        var x = Enumerable.Range(0, 37).Select(_ => stream.NextUniform()).ToArray();
        for (var code = 0; code < 5; code++)
        {
            var whole = new double[x.Length];
            VectorFunctions.Apply(code, x, whole, width);
            for (var i = 0; i < x.Length; i++)
            {
                var one = new double[1];
                VectorFunctions.Apply(code, x.AsSpan(i, 1), one, width);
                Assert.Equal(whole[i], one[0]);
            }
        }
    }

    [Fact]
    public void Source_OfTheNarrowFile_IsTheWideOnesWithTheNumberReplaced()
    {
        static string Body(string name, [CallerFilePath] string here = "")
        {
            var path = Path.Combine(
                Path.GetDirectoryName(here)!,
                "../../../src/DeckLife.Numerics/Vectors",
                name
            );
            return string.Join(
                '\n',
                File.ReadLines(path)
                    .Where(line => !line.TrimStart().StartsWith("///", StringComparison.Ordinal))
                    .Select(line =>
                        line.Replace("Vector512", "Vector256", StringComparison.Ordinal)
                            .Replace("LaneMath512", "LaneMath256", StringComparison.Ordinal)
                    )
            );
        }

        Assert.Equal(Body("LaneMath512.cs"), Body("LaneMath256.cs"));
    }

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(double.NaN)]
    public void NormalQuantile_OutsideTheInterval_Throws(double p) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => NormalQuantile.At(p));

    [Fact]
    public void Description_NamesTheWidthInUse() =>
        Assert.Contains(
            ((int)VectorWidth.InUse).ToString(CultureInfo.InvariantCulture) + " double",
            VectorWidth.Description,
            StringComparison.Ordinal
        );
}
