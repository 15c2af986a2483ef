namespace MicRegister.Register.Campaigns;

/// <summary>
/// Words for what campaigns choose from, in one place for all who read them; written so that they can stand within a sentence.
/// </summary>
public static class CampaignWords
{
    extension(Mount mount)
    {
        /// <summary>How a microphone stands: "S1 stands flush in a ground plate".</summary>
        public string InWords => mount switch
        {
            Mount.FlushPlate => "flush in a ground plate",
            Mount.InvertedPlate => "inverted over a ground plate",
            Mount.GroundStand => "on a stand",
            Mount.Pole => "on a pole",
            _ => throw new ArgumentOutOfRangeException(nameof(mount), mount, null),
        };
    }

    extension(SourceClass source)
    {
        /// <summary>What flies: "the source is a small multirotor".</summary>
        public string InWords => source switch
        {
            SourceClass.Jet => "a jet aeroplane",
            SourceClass.Propeller => "a propeller aeroplane",
            SourceClass.SmallMultirotor => "a small multirotor",
            SourceClass.Other => "something else",
            _ => throw new ArgumentOutOfRangeException(nameof(source), source, null),
        };
    }

    extension(KitPurpose purpose)
    {
        /// <summary>What is taken along for what: "spares".</summary>
        public string InWords => purpose switch
        {
            KitPurpose.Spare => "spares",
            KitPurpose.Check => "for the checks",
            _ => throw new ArgumentOutOfRangeException(nameof(purpose), purpose, null),
        };
    }

    extension(SensitivityRule rule)
    {
        /// <summary>Where the sensitivity comes from that is applied: "it is told by the mean of its checks".</summary>
        public string InWords => rule switch
        {
            SensitivityRule.MeanOfChecks => "the mean of its checks",
            SensitivityRule.Certificate => "its certificates",
            SensitivityRule.LinearBetween => "a straight line between its certificates",
            _ => throw new ArgumentOutOfRangeException(nameof(rule), rule, null),
        };
    }
}
