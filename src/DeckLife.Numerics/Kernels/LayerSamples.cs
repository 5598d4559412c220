namespace DeckLife.Numerics.Kernels;

/// <summary>
/// One layer of a section, for many samples at once (structure of arrays). D(a) = Dref (aref/a)^m at the layer's age a, constant after
/// a stated age. The age at the start may be each sample's own; the reference age and the age after which D is constant are shared.
/// </summary>
public sealed class LayerSamples
{
    /// <summary>Arrays for a number of samples, all 0: fill in at least the thickness and the diffusion coefficient.</summary>
    /// <param name="count">Number of samples, at least 1.</param>
    public LayerSamples(int count)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(count, 1);
        Count = count;
        ThicknessMm = new double[count];
        DiffusionMm2PerYr = new double[count];
        AgeingExponent = new double[count];
        Background = new double[count];
    }

    /// <summary>Number of samples.</summary>
    public int Count { get; }

    /// <summary>Thickness [mm] [samples]; 0 where the sample has no such layer.</summary>
    public double[] ThicknessMm { get; }

    /// <summary>Instantaneous diffusion coefficient at <see cref="ReferenceAgeYr"/> [mm²/yr], above 0 [samples].</summary>
    public double[] DiffusionMm2PerYr { get; }

    /// <summary>Ageing exponent m, from 0 to 0.99 [samples].</summary>
    public double[] AgeingExponent { get; }

    /// <summary>Uniform content at the start, at least 0 [samples].</summary>
    public double[] Background { get; }

    /// <summary>What an earlier exposure left on top of <see cref="Background"/>; absent: nothing.</summary>
    public ErfcProfileSamples? Residual { get; set; }

    /// <summary>The content at the start, where it is no erfc profile; it then stands for background and residual.</summary>
    public NodalProfileSamples? Nodal { get; set; }

    /// <summary>Age at which <see cref="DiffusionMm2PerYr"/> holds [yr], above 0.</summary>
    public double ReferenceAgeYr { get; set; } = 28.0 / 365.25;

    /// <summary>The layer's age at time 0, or when it is placed [yr], at least 0.</summary>
    public double AgeAtStartYr { get; set; }

    /// <summary>Each sample's own age at time 0, or when the layer is placed [yr], at least 0 [samples]; absent: <see cref="AgeAtStartYr"/> for all.</summary>
    public double[]? OwnAgesAtStartYr { get; set; }

    /// <summary>Age after which D stays constant [yr]; positive infinity: ageing never fades.</summary>
    public double ConstantAfterYr { get; set; } = double.PositiveInfinity;

    /// <summary>A factor on D in time; absent: none. The samples then share their ages.</summary>
    public SeasonalFactor? Season { get; set; }

    internal void Check(string name)
    {
        if (Season is not null && OwnAgesAtStartYr is not null)
        {
            throw new ArgumentException(
                $"{name}: a seasonal factor needs one age at the start for all samples."
            );
        }

        if (!(ReferenceAgeYr > 0 && ReferenceAgeYr < 1e6))
        {
            throw new ArgumentException($"{name}: the reference age must be above 0 yr.");
        }

        if (!(AgeAtStartYr >= 0 && AgeAtStartYr < 1e6))
        {
            throw new ArgumentException($"{name}: the age at the start must be at least 0 yr.");
        }

        if (!(ConstantAfterYr > 0))
        {
            throw new ArgumentException(
                $"{name}: the age after which D is constant must be above 0 yr."
            );
        }

        if (OwnAgesAtStartYr is { } ages && ages.Length != Count)
        {
            throw new ArgumentException($"{name}: as many ages as samples are needed.");
        }

        for (var i = 0; i < Count; i++)
        {
            Require(
                OwnAgesAtStartYr is null || (OwnAgesAtStartYr[i] >= 0 && OwnAgesAtStartYr[i] < 1e6),
                name,
                i,
                "age at the start",
                OwnAgesAtStartYr?[i] ?? 0,
                "at least 0 yr"
            );
            Require(
                ThicknessMm[i] >= 0 && ThicknessMm[i] < 1e5,
                name,
                i,
                "thickness",
                ThicknessMm[i],
                "at least 0 mm"
            );
            Require(
                ThicknessMm[i] == 0 || (DiffusionMm2PerYr[i] > 0 && DiffusionMm2PerYr[i] < 1e8),
                name,
                i,
                "diffusion coefficient",
                DiffusionMm2PerYr[i],
                "above 0 mm²/yr"
            );
            Require(
                AgeingExponent[i] >= 0 && AgeingExponent[i] <= 0.99,
                name,
                i,
                "ageing exponent",
                AgeingExponent[i],
                "from 0 to 0.99"
            );
            Require(
                Background[i] >= 0 && Background[i] < 1e6,
                name,
                i,
                "background",
                Background[i],
                "at least 0"
            );
            if (Residual is { } residual)
            {
                Require(
                    residual.SurfaceContent[i] >= 0 && residual.SurfaceContent[i] < 1e6,
                    name,
                    i,
                    "residual surface content",
                    residual.SurfaceContent[i],
                    "at least 0"
                );
                Require(
                    residual.SpreadMm2[i] > 0 && residual.SpreadMm2[i] < 1e9,
                    name,
                    i,
                    "residual spread",
                    residual.SpreadMm2[i],
                    "above 0 mm²"
                );
                Require(
                    residual.RemovedMm[i] >= 0 && residual.RemovedMm[i] < 1e5,
                    name,
                    i,
                    "removed depth",
                    residual.RemovedMm[i],
                    "at least 0 mm"
                );
            }
        }
    }

    internal static void Require(
        bool holds,
        string name,
        int sample,
        string what,
        double value,
        string allowed
    )
    {
        if (!holds)
        {
            throw new ArgumentException(
                FormattableString.Invariant(
                    $"{name}, sample {sample}: {what} is {value}; allowed: {allowed}."
                )
            );
        }
    }
}
