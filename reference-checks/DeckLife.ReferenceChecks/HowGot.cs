namespace DeckLife.ReferenceChecks;

/// <summary>How a reference value was got.</summary>
public enum HowGot
{
    /// <summary>Printed in a publication that was read.</summary>
    Printed,

    /// <summary>Computed independently of this project (other code, other method), from the named formula.</summary>
    ComputedIndependently,

    /// <summary>From memory of the named publication; to be verified before it is quoted.</summary>
    FromMemory,

    /// <summary>Common practice, without one source.</summary>
    CommonPractice,
}
