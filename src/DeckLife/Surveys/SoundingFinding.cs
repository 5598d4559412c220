namespace DeckLife.Surveys;

/// <summary>What hammer or chain found.</summary>
public enum SoundingFinding
{
    /// <summary>A hollow area: delaminated.</summary>
    Delaminated,

    /// <summary>Concrete gone: spalled.</summary>
    Spalled,

    /// <summary>An earlier repair.</summary>
    Patched,
}
