using MicRegister.Register.Campaigns;
using MicRegister.Register.Devices;

namespace MicRegister.Register.Labels;

/// <summary>The labels of a register, and of what they are on.</summary>
public static class LabelsOfRegister
{
    extension(Register register)
    {
        /// <summary>Codes of all labels that were ever bound.</summary>
        public IEnumerable<string> LabelCodes => register.Ids("label");
    }

    extension(DeviceState device)
    {
        /// <summary>Code of the label that was put on it last; null where none was.</summary>
        public string? Label => device.Parts.Of<DeviceLabel>()?.Code;
    }

    extension(CampaignState campaign)
    {
        /// <summary>Codes of the labels at stations, by their names.</summary>
        public IReadOnlyDictionary<string, string> Labels => campaign.Parts.Of<StationLabels>()?.Codes ?? StationLabels.None;
    }
}
