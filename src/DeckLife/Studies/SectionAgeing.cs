namespace DeckLife.Studies;

/// <summary>How the diffusion coefficient of a section's concrete changes with age.</summary>
public enum SectionAgeing
{
    /// <summary>Constant.</summary>
    None,

    /// <summary>The instantaneous coefficient is D (tref/t)^m: D t^-m is integrated.</summary>
    Instantaneous,

    /// <summary>The apparent coefficient is D (tref/t)^m, as in fib Bulletin 34: it is not integrated again.</summary>
    Apparent,
}
