namespace DeckLife.Fitting;

/// <summary>The statistical model of one deck: its slices, its priors and how the means of its cores are made up.</summary>
internal sealed class DeckModel
{
    /// <summary>The slices.</summary>
    public required DeckSlices Slices { get; init; }

    /// <summary>The priors.</summary>
    public required DeckPriors Priors { get; init; }

    /// <summary>The background where it is held [kg/m³].</summary>
    public double? FixedBackground { get; init; }

    /// <summary>The ageing exponent where it is held; absent: estimated.</summary>
    public double? FixedAgeingExponent { get; init; } = 0;

    /// <summary>Exposure age at which the deck's D is stated [yr].</summary>
    public required double ReferenceYears { get; init; }

    /// <summary>Age of the concrete at its first salt [yr].</summary>
    public double StartYears { get; init; }

    /// <summary>1 for a targeted core, 0 for one taken at random; null when all are of one kind.</summary>
    public double[]? IsTargeted { get; init; }

    /// <summary>Share of the area that the targeted cores stand for.</summary>
    public double TargetedAreaShare { get; init; }

    /// <summary>Number of coefficients of the means: 2, or 4 with targeted cores.</summary>
    public int MeanCount => IsTargeted is null ? 2 : 4;

    /// <summary>ln(Dapp(age of the core)/Dapp(reference age)) of each core.</summary>
    /// <param name="exponent">Ageing exponent.</param>
    /// <param name="shift">Receives the logarithms.</param>
    public void AgeShifts(double exponent, Span<double> shift)
    {
        for (var j = 0; j < shift.Length; j++)
        {
            // Cores of one survey follow one another and share an age.
            if (j > 0 && Slices.Years[j] == Slices.Years[j - 1])
            {
                shift[j] = shift[j - 1];
                continue;
            }

            shift[j] = AgeingRatio.LogBetween(
                exponent,
                Slices.Years[j],
                ReferenceYears,
                StartYears
            );
        }
    }

    /// <summary>Prior mean of a coefficient of the means: those of (ln Cs, ln D), then those of the targeted cores' shifts.</summary>
    public double MeanOfCoefficient(int index) =>
        index switch
        {
            0 => Priors.MeanLnSurfaceChloride,
            1 => Priors.MeanLnDiffusionCoefficient,
            _ => 0,
        };

    /// <summary>Prior standard deviation of a coefficient of the means.</summary>
    public double SdOfCoefficient(int index) =>
        index switch
        {
            0 => Priors.SdOfMeanLnSurfaceChloride,
            1 => Priors.SdOfMeanLnDiffusionCoefficient,
            _ => Priors.SdOfTargetedShift,
        };

    /// <summary>Log prior of (ln s.d. of ln Cs, ln s.d. of ln D, artanh of the correlation), constants left out.</summary>
    public double LogPriorOfSpread(double lnSdSurface, double lnSdDiffusion, double artanh) =>
        LogPriorOfLnSdSurface(lnSdSurface, Math.Exp(lnSdSurface))
        + LogPriorOfLnSdDiffusion(lnSdDiffusion, Math.Exp(lnSdDiffusion))
        + LogPriorOfCorrelation(LogCosh(artanh));

    /// <summary>Log prior of ln of the s.d. of ln Cs: half-normal in the s.d., constants left out.</summary>
    public double LogPriorOfLnSdSurface(double lnSd, double sd)
    {
        var scaled = sd / Priors.ScaleOfSdLnSurfaceChloride;
        return lnSd - (0.5 * scaled * scaled);
    }

    /// <summary>Log prior of ln of the s.d. of ln D: half-normal in the s.d., constants left out.</summary>
    public double LogPriorOfLnSdDiffusion(double lnSd, double sd)
    {
        var scaled = sd / Priors.ScaleOfSdLnDiffusionCoefficient;
        return lnSd - (0.5 * scaled * scaled);
    }

    /// <summary>Log prior of artanh ρ: (1 - ρ²)^(η-1) times dρ/d artanh = 1 - ρ², constants left out.</summary>
    /// <param name="logCosh">ln cosh artanh ρ = -ln(1 - ρ²)/2.</param>
    public double LogPriorOfCorrelation(double logCosh) => -2 * Priors.CorrelationShape * logCosh;

    /// <summary>Log prior of the logarithm of the deck's error, constants left out; negative infinity below the smallest.</summary>
    public double LogPriorOfLnError(double lnError)
    {
        if (lnError < LnSmallestError)
        {
            return double.NegativeInfinity;
        }

        if (Slices.Weights == SliceWeights.Given)
        {
            var z = lnError / Priors.SdOfLnGivenErrorFactor;
            return -0.5 * z * z;
        }

        var scale =
            Slices.Weights == SliceWeights.Relative
                ? Priors.ScaleOfRelativeLabError
                : Priors.ScaleOfLabErrorKgPerM3;
        var scaled = Math.Exp(lnError) / scale;
        return lnError - (0.5 * scaled * scaled);
    }

    /// <summary>The error of a slice in kg/m³: at the mean measured content where it is relative, of the root mean square given one where given.</summary>
    /// <param name="error">The deck's error.</param>
    public double TypicalError(double error)
    {
        double sum = 0;
        var count = 0;
        for (var i = 0; i < Slices.SliceCount; i++)
        {
            if (!Slices.IsCensored[i])
            {
                sum +=
                    Slices.Weights == SliceWeights.Given
                        ? Slices.ErrorFactor[i] * Slices.ErrorFactor[i]
                        : Slices.Content[i];
                count++;
            }
        }

        var mean = count > 0 ? sum / count : 0;
        return Slices.Weights switch
        {
            SliceWeights.Relative => error * mean,
            SliceWeights.Given => error * Math.Sqrt(mean),
            _ => error,
        };
    }

    /// <summary>Logarithm of the least value of the deck's error.</summary>
    public double LnSmallestError =>
        Slices.Weights switch
        {
            SliceWeights.Constant => Math.Log(Priors.SmallestLabErrorKgPerM3),
            // The slices' own floor acts here; these ends only keep the chain within doubles.
            SliceWeights.Relative => Math.Log(1e-4),
            _ => Math.Log(1e-2),
        };

    /// <summary>Log prior of the background, constants left out.</summary>
    public double LogPriorOfBackground(double background)
    {
        var scaled = background / Priors.ScaleOfBackgroundKgPerM3;
        return background < 0 ? double.NegativeInfinity : -0.5 * scaled * scaled;
    }

    /// <summary>Log prior of the ageing exponent, constants left out.</summary>
    public double LogPriorOfAgeing(double exponent)
    {
        var scaled = (exponent - Priors.MeanAgeingExponent) / Priors.SdAgeingExponent;
        return exponent < 0 || exponent > Priors.LargestAgeingExponent
            ? double.NegativeInfinity
            : -0.5 * scaled * scaled;
    }

    /// <summary>ln cosh x; 1 - tanh² x = cosh^-2 x.</summary>
    public static double LogCosh(double x)
    {
        var size = Math.Abs(x);
        return size + Math.Log(0.5 * (1 + Math.Exp(-2 * size)));
    }
}
