export { SAMPLE_SIGN_IN, type SampleMessage, type SampleStudio } from './samples.service.ts';
