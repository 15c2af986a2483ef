namespace MicRegister.Register.Campaigns;

/// <summary>
/// A body of another folder that says something of a campaign; that folder keeps what it says as a part of the campaign's state.
/// </summary>
internal interface ICampaignFact
{
    /// <summary>The campaign's state after the fact.</summary>
    CampaignState ApplyTo(CampaignState campaign);
}
