namespace DeckLife.Propagation;

/// <summary>Where the time from initiation to damage comes from.</summary>
public enum PropagationModel
{
    /// <summary>The stated period with its spread.</summary>
    StatedPeriod,

    /// <summary>Rust pressure after Liu and Weyers (1998), from the corrosion rate and each point's cover.</summary>
    LiuWeyers1998,

    /// <summary>Rust pressure after El Maaddawy and Soudki (2007), from the corrosion rate and each point's cover.</summary>
    ElMaaddawySoudki2007,

    /// <summary>A stated loss of radius at the corrosion rate, by Faraday's law.</summary>
    CriticalLoss,
}
