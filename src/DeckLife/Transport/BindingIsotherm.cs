using DeckLife.Numerics.Diffusion;

namespace DeckLife.Transport;

/// <summary>How much chloride concrete binds at a free concentration: total = w Cf + Cb(Cf).</summary>
/// <remarks>
/// Cf [kg/m³ of pore solution], Cb [kg/m³ of concrete], w the water content in which chloride moves [m³/m³ of concrete].
/// The diffusion coefficient of the layer is the one without binding: ∂(w Cf + Cb)/∂t = ∂/∂x (w D ∂Cf/∂x), so the
/// effective coefficient is D / (1 + (1/w) dCb/dCf) (Nilsson et al. 1996, HETEK report; Martín-Pérez et al. 2000, Cement
/// and Concrete Research 30:1215-1223; both from memory).
/// </remarks>
public abstract record BindingIsotherm
{
    private protected BindingIsotherm(double waterContent)
    {
        if (!(waterContent > 0 && waterContent <= 1))
        {
            throw new ArgumentOutOfRangeException(
                nameof(waterContent),
                waterContent,
                "A water content lies above 0 and at most at 1 m³/m³."
            );
        }

        WaterContent = waterContent;
    }

    /// <summary>w [m³/m³].</summary>
    public double WaterContent { get; }

    /// <summary>Bound chloride Cb [kg/m³ of concrete].</summary>
    /// <param name="free">Cf [kg/m³ of pore solution].</param>
    public double Bound(double free) => ToSorption().Total(free) - (WaterContent * free);

    /// <summary>Total chloride [kg/m³ of concrete].</summary>
    /// <param name="free">Cf [kg/m³ of pore solution].</param>
    public double Total(double free) => ToSorption().Total(free);

    /// <summary>1 + (1/w) dCb/dCf: what the diffusion coefficient is divided by.</summary>
    /// <param name="free">Cf [kg/m³ of pore solution], greater than 0.</param>
    public double Retardation(double free) => ToSorption().Slope(free) / WaterContent;

    internal abstract Sorption ToSorption();
}
