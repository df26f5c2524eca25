/** Times, temperatures and details of steps in words, the same words for the same thing however it is written. */
import type { Amount, Duration, Portion, StepDetail, Temperature } from '../../../grammar';
import { formatDurations } from '../timeline/clock';

export function temperatureWords(temperature: Temperature): string {
  switch (temperature.kind) {
    case 'room':
    case 'fridge':
      return temperature.kind;
    case 'degrees': {
      const [low, high] = [celsiusText(temperature.lowCelsius), celsiusText(temperature.highCelsius)];
      return low === high ? `${low} °C` : `${low} to ${high} °C`;
    }
  }
}

export function durationWords({ lowMinutes, highMinutes }: Duration): string {
  return formatDurations(lowMinutes, highMinutes);
}

export function detailWords(detail: StepDetail): string {
  switch (detail.kind) {
    case 'lid':
      return detail.on ? 'lid on' : 'lid off';
    case 'steam':
      return 'with steam';
    case 'by':
      return `by ${detail.how}`;
    case 'until-core':
      return `until core ${temperatureWords(detail.temperature)}`;
    case 'until-volume':
      return `until volume ${String(detail.percent.value)} %`;
    case 'until':
      return `until ${detail.text.text}`;
    case 'add':
      return `add ${portionWords(detail.portion)}${detail.name.text}`;
    case 'at':
      return `at ${durationWords(detail.offset)}`;
    case 'every':
      return `every ${durationWords(detail.interval)}`;
    case 'times':
      return `${String(detail.count.value)} times`;
    case 'attended':
      return detail.attended ? 'attended' : 'unattended';
    case 'note':
      return detail.text.text;
  }
}

function portionWords(portion: Portion): string {
  switch (portion.kind) {
    case 'whole':
      return '';
    case 'rest':
      return 'rest of ';
    case 'fraction':
      return portion.fraction === 0.5 ? 'half of ' : `${String(Number((portion.fraction * 100).toFixed(1)))} % of `;
    case 'amount':
      return `${amountWords(portion.amount)} of `;
  }
}

/** An amount as it is written, in one spelling. */
export function amountWords(amount: Amount): string {
  if (amount.kind === 'all') return 'all';
  const { quantity } = amount;
  const number = quantity === undefined ? '' : quantity.high === undefined ? String(quantity.low.value) : `${String(quantity.low.value)} to ${String(quantity.high.value)}`;
  switch (amount.kind) {
    case 'mass':
    case 'volume':
      return `${number} ${amount.unit}`;
    case 'share':
      return `${number} %`;
    case 'count':
      return number;
    case 'pinch':
      return number === '' ? 'a pinch' : `${number} pinches`;
  }
}

/** To a hundredth, the precision at which temperatures are read. */
function celsiusText(value: number): string {
  return String(Number(value.toFixed(2)));
}
