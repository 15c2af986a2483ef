using MicRegister.Register.Facts;

namespace MicRegister.Register.Campaigns;

/// <summary>The campaigns and requirement profiles of a register.</summary>
public static class CampaignsOfRegister
{
    extension(Register register)
    {
        /// <summary>Ids of all campaigns, in ordinal order; not those of which all was taken back.</summary>
        public IEnumerable<string> CampaignIds => register.StandingIds("campaign", "campaign-planned");

        /// <summary>Ids of all requirement profiles, the built-in ones included, in ordinal order.</summary>
        public IEnumerable<string> ProfileIds =>
            register.StandingIds("profile", "profile-written").Concat(BuiltInProfiles.All.Select(p => p.Id))
                .Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal);

        /// <summary>A campaign; null where no fact speaks of it.</summary>
        /// <param name="id">Its id.</param>
        /// <param name="day">As it was true at the end of that day; null for all that is known.</param>
        public CampaignState? Campaign(string id, DateOnly? day = null) =>
            register.Fold<CampaignState>(Subject.Campaign(id), day, facts => CampaignState.Fold(id, facts), null);

        /// <summary>The offsets from UTC by which days at a campaign's site begin: its own, else those of the home; none is UTC.</summary>
        /// <param name="campaign">Id of the campaign; null asks for the home's.</param>
        public IReadOnlyList<ZoneOffset> OffsetsOf(string? campaign) =>
            (campaign is null ? null : register.Campaign(campaign)?.Plan?.Offsets) ?? register.Basis.Founded?.Offsets ?? [];

        /// <summary>A requirement profile, a built-in one where no fact speaks of it.</summary>
        /// <param name="id">Its id.</param>
        /// <param name="day">As it was true at the end of that day; null for all that is known.</param>
        public ProfileState? Profile(string id, DateOnly? day = null) =>
            HistoryOf(register, id, day)?.State ?? BuiltInProfiles.Find(id);

        /// <summary>
        /// All editions of a requirement profile, the built-in one first, then in the order of their times; those that do not count any
        /// more are among them. Empty where there is no such profile.
        /// </summary>
        /// <param name="id">Its id.</param>
        public IReadOnlyList<ProfileEdition> ProfileEditions(string id) =>
            (HistoryOf(register, id, null) ?? ProfileHistory.Fold(id, [])).Editions;
    }

    private static ProfileHistory? HistoryOf(Register register, string id, DateOnly? day) =>
        register.Fold<ProfileHistory>(Subject.Profile(id), day, facts => ProfileHistory.Fold(id, facts), null);
}
