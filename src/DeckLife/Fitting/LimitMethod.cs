namespace DeckLife.Fitting;

/// <summary>How the 95 % limits of a profile fit are got.</summary>
public enum LimitMethod
{
    /// <summary>Profile likelihood with the F(1, n - p) cut.</summary>
    ProfileLikelihood,

    /// <summary>Parametric bootstrap, studentised in ln D, Cs and C0.</summary>
    Bootstrap,
}
