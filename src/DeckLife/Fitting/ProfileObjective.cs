using DeckLife.Numerics.Diffusion;

namespace DeckLife.Fitting;

/// <summary>What a fit minimises, as a function of ln D alone: the linear part (Cs - C0, C0) is solved exactly for each D.</summary>
internal abstract class ProfileObjective
{
    private readonly double[] _share;
    private readonly double[] _slope;

    /// <summary>Makes the objective of a set of slices.</summary>
    protected ProfileObjective(ProfileData data)
    {
        Data = data;
        _share = new double[data.Count];
        _slope = new double[data.Count];
    }

    /// <summary>The slices.</summary>
    public ProfileData Data { get; }

    /// <summary>Shares of (Cs - C0) in the slices at the ln D last asked.</summary>
    protected ReadOnlySpan<double> Share => _share;

    /// <summary>Derivatives of the shares by ln D.</summary>
    protected ReadOnlySpan<double> ShareSlope => _slope;

    /// <summary>Makes the objective that the slices need.</summary>
    public static ProfileObjective Create(ProfileData data, ErrorLaw law) =>
        law == ErrorLaw.Normal && data.Detected == data.Count
            ? new LeastSquaresObjective(data)
            : new LikelihoodObjective(data, law);

    /// <summary>The best linear part at a given ln D.</summary>
    public ProfilePoint At(double lnDiffusion)
    {
        Basis(lnDiffusion);
        return Solve(lnDiffusion);
    }

    /// <summary>The value of the objective up to which a confidence set reaches.</summary>
    /// <param name="best">The minimum.</param>
    /// <param name="cut">The cut of the limits sought.</param>
    public abstract double Threshold(ProfilePoint best, LimitCut cut);

    /// <summary>The value of the objective where twice the logarithm of the likelihood, the scale free, has fallen by an amount.</summary>
    /// <param name="best">The minimum.</param>
    /// <param name="fall">How far it has fallen, at least 0.</param>
    public abstract double ThresholdAfter(ProfilePoint best, double fall);

    /// <summary>Minus twice the logarithm of the likelihood at the minimum, the scale free, but for the weights' own part and a constant.</summary>
    public abstract double Deviance(ProfilePoint best);

    /// <summary>The end of the set of a linear parameter at a given ln D, all else free, within a threshold.</summary>
    /// <returns>The end; absent when no value at this ln D lies within the threshold.</returns>
    public double? End(double lnDiffusion, ProfileParameter which, bool upper, double threshold)
    {
        Basis(lnDiffusion);
        return EndOf(which, upper, threshold, Solve(lnDiffusion));
    }

    /// <summary>Solves the linear part with the shares in place.</summary>
    protected abstract ProfilePoint Solve(double lnDiffusion);

    /// <summary>Finds the end of a linear parameter's set with the shares in place.</summary>
    protected abstract double? EndOf(
        ProfileParameter which,
        bool upper,
        double threshold,
        ProfilePoint best
    );

    private void Basis(double lnDiffusion)
    {
        var length = 2 * Math.Sqrt(Math.Exp(lnDiffusion) * Data.Years);
        for (var i = 0; i < _share.Length; i++)
        {
            _share[i] = SliceMean.Value(Data.TopMm[i], Data.BottomMm[i], length, out _slope[i]);
        }
    }
}
