namespace DeckLife.Decisions;

/// <summary>Where something that is not known about a deck comes from.</summary>
public enum InputSource
{
    /// <summary>The cores: medians, spreads and correlation of surface content and diffusion coefficient, background.</summary>
    Cores,

    /// <summary>The cover survey: mean and spread.</summary>
    CoverSurvey,

    /// <summary>The threshold, as far as it is not known about the deck as a whole.</summary>
    Threshold,

    /// <summary>The time from initiation to damage.</summary>
    Propagation,

    /// <summary>What the model's form gets wrong.</summary>
    ModelForm,

    /// <summary>Overlay materials: resistance to chloride and own life.</summary>
    Materials,

    /// <summary>Prices, and the quantities that re-sounding finds.</summary>
    Prices,
}
