using MicRegister.Register.Campaigns;
using MicRegister.Register.Deployment;
using MicRegister.Register.Events;

namespace MicRegister.Register.Readiness;

/// <summary>How far a campaign is, which says what its pages show first.</summary>
public enum CampaignPhase
{
    /// <summary>It lies ahead and nothing stands outdoors.</summary>
    Planning,

    /// <summary>Chains stand outdoors and nothing was recorded yet.</summary>
    LayingOut,

    /// <summary>Its days have come and events are recorded.</summary>
    Flying,

    /// <summary>Its days are over and something is open.</summary>
    Afterwards,

    /// <summary>Its days are over and nothing is open.</summary>
    Closed,
}

/// <summary>How far campaigns are.</summary>
public static class CampaignPhases
{
    /// <summary>The phase of a campaign.</summary>
    /// <param name="register">The facts.</param>
    /// <param name="campaign">The campaign.</param>
    /// <param name="day">Day at its site.</param>
    /// <param name="report">What readiness says of it; null where it has no plan that can be judged, which leaves something open.</param>
    public static CampaignPhase Of(Register register, CampaignState campaign, DateOnly day, ReadinessReport? report)
    {
        var stands = ArrayDeployment.Of(register, campaign.Id).Placements.Any(p => p.Stands);
        if (campaign.Plan is not { } plan) return CampaignPhase.Planning;
        if (day > plan.LastDay)
            return stands || report is null || report.Findings.Any(f => f.Gravity > Gravity.Note) ? CampaignPhase.Afterwards
                : CampaignPhase.Closed;
        if (EventBook.OfCampaign(register, campaign.Id).Count > 0) return CampaignPhase.Flying;
        return stands || day >= plan.FirstDay ? CampaignPhase.LayingOut : CampaignPhase.Planning;
    }

    extension(CampaignPhase phase)
    {
        /// <summary>The phase in words.</summary>
        public string InWords => phase switch
        {
            CampaignPhase.LayingOut => "laying out",
            _ => phase.ToString().ToLowerInvariant(),
        };
    }
}
